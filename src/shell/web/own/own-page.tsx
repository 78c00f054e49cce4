import { lazy } from "react";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { Folded } from "../shell/folded.tsx";

// Each form brings a good deal of the component library with it.
const OwnMeasurement = lazy(async () => ({ default: (await import("./own-measurement.tsx")).OwnMeasurement }));
const OwnSign = lazy(async () => ({ default: (await import("./own-sign.tsx")).OwnSign }));
const OwnRepair = lazy(async () => ({ default: (await import("./own-repair.tsx")).OwnRepair }));
const OwnVariant = lazy(async () => ({ default: (await import("./own-variant.tsx")).OwnVariant }));

/** What the technician does beside the plan: any two points, anything noticed, anything done. All of it counts. */
export function OwnPage({ job, write }: PageProps) {
  const { desk } = job.view;
  const words = text.own;
  const practice = job.record.head.practice !== undefined;
  return (
    <section>
      <h2>{words.title}</h2>
      <Folded says={words.measure}>
        <OwnMeasurement desk={desk} write={write} asks={practice} />
      </Folded>
      <Folded says={words.notice}>
        <OwnSign desk={desk} write={write} asks={practice} />
      </Folded>
      {!practice && (
        <Folded says={words.did}>
          <OwnRepair desk={desk} write={write} />
        </Folded>
      )}
      {desk.slots.length > 0 && (
        <Folded says={words.variant}>
          <OwnVariant desk={desk} write={write} />
        </Folded>
      )}
    </section>
  );
}
