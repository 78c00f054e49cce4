import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { OwnMeasurement } from "./own-measurement.tsx";
import { OwnRepair } from "./own-repair.tsx";
import { OwnSign } from "./own-sign.tsx";
import { OwnVariant } from "./own-variant.tsx";

/** What the technician does beside the plan: any two points, anything noticed, anything done. All of it counts. */
export function OwnPage({ job, write }: PageProps) {
  const { desk } = job.view;
  const words = text.own;
  const practice = job.record.head.practice !== undefined;
  return (
    <section>
      <h2>{words.title}</h2>
      <details>
        <summary>{words.measure}</summary>
        <OwnMeasurement desk={desk} write={write} asks={practice} />
      </details>
      <details>
        <summary>{words.notice}</summary>
        <OwnSign desk={desk} write={write} asks={practice} />
      </details>
      {!practice && (
        <details>
          <summary>{words.did}</summary>
          <OwnRepair desk={desk} write={write} />
        </details>
      )}
      {desk.slots.length > 0 && (
        <details>
          <summary>{words.variant}</summary>
          <OwnVariant desk={desk} write={write} />
        </details>
      )}
    </section>
  );
}
