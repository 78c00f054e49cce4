import { useEffect, useState } from "react";
import { Link } from "wouter";
import type { Branch } from "../../../core/trace/index.ts";
import { askEngine } from "../engine/client.ts";
import { text } from "../english.ts";
import type { PageProps } from "../job/job-screen.tsx";
import { OwnMeasurement } from "../own/own-measurement.tsx";
import { BranchRows } from "./branch-rows.tsx";

/** The whole circuit of a job's machine; any two points picked in it can be measured. */
export function CircuitPage({ job, write }: PageProps) {
  const branches = useBranches(job.text, job.record.id);
  const [picked, setPicked] = useState<readonly string[]>([]);
  const { plan, ways, belief, desk } = job.view;
  const probes = (plan.steps[0]?.questions ?? []).flatMap(({ probe }) => (probe === undefined ? [] : [probe]));
  const live = new Set(probes.flatMap(({ id }) => (ways[id] ?? []).map((one) => one.id)));
  const marks = new Set(probes.flatMap(({ from, to }) => [from, to].filter((point) => point !== undefined)));
  const odds = new Map((job.odds ?? belief).parts.map(({ part, p }) => [part, p]));
  const pick = (point: string) =>
    setPicked(picked.includes(point) ? picked.filter((one) => one !== point) : [...picked.slice(-1), point]);
  const words = text.circuit;
  const [from, to] = picked;
  const deadOnly = branches !== undefined && from !== undefined && to !== undefined && !shareSupply(branches, from, to);
  const says = (point: string) => desk.points.find(({ id }) => id === point)?.says ?? point;
  return (
    <>
      <p>
        <Link href={`/job/${job.record.id}/next`}>‹ {text.tabs.next}</Link>
      </p>
      <h1>{words.title}</h1>
      <p className="faint">{words.about}</p>
      {branches === undefined ? (
        <p role="status">{text.opening}</p>
      ) : (
        <BranchRows branches={branches} shown={{ odds, live, marks, picked, pick }} />
      )}
      {from !== undefined && (
        <section className="picked">
          <h2>{words.measure}</h2>
          <p role="status">{to === undefined ? words.pickTwo(says(from)) : words.picked(says(from), says(to))}</p>
          {deadOnly && <p className="trouble">{words.apart}</p>}
          {to !== undefined && (
            <OwnMeasurement
              key={`${from} ${to}`}
              deadOnly={deadOnly}
              desk={desk}
              write={write}
              asks={job.record.head.practice !== undefined}
              between={{ from, to }}
            />
          )}
        </section>
      )}
    </>
  );
}

/** Two points that hang on one supply; between a rail and the mains nothing is measured live. */
function shareSupply(branches: readonly Branch[], from: string, to: string): boolean {
  const suppliesOf = (id: string): readonly Branch["supply"][] =>
    branches.flatMap(({ supply, points }) => (points.some((point) => point?.id === id) ? [supply] : []));
  return suppliesOf(from).some((supply) => suppliesOf(to).includes(supply));
}

function useBranches(written: string, id: string): readonly Branch[] | undefined {
  const [branches, setBranches] = useState<readonly Branch[]>();
  useEffect(() => {
    let current = true;
    askEngine({ do: "branches", text: written }, `${id} branches`).then(
      (answer) => {
        if (current) setBranches(answer);
      },
      () => undefined,
    );
    return () => {
      current = false;
    };
  }, [written, id]);
  return branches;
}
