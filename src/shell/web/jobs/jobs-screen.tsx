import { Button, TextInput } from "@mantine/core";
import { useCallback, useState } from "react";
import { Link, useLocation } from "wouter";
import type { AwaitedBy } from "../../../core/ledger/index.ts";
import type { JobLine } from "../../store/database.ts";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";
import { useReadyJobs } from "./use-ready-jobs.ts";

/** Every job of this device by who or what it waits for: what is ours to do first. */
export function JobsScreen() {
  const { db, ledger } = useApp();
  const [, go] = useLocation();
  const [find, setFind] = useState("");
  const jobs = useLive(useCallback(() => db.jobs.orderBy("touched").reverse().toArray(), [db]));
  const words = text.jobs;
  const found = (jobs ?? []).filter((job) => holds(job, find));
  const shown = (jobs ?? []).filter(({ demo }) => demo === true);
  const ours = found.filter((job) => groupOf(job) === "us").sort(byPromise);
  useReadyJobs(ours);
  return (
    <main className="column jobs-list">
      <h1>{words.title}</h1>
      <Button size="lg" fullWidth className="key" onClick={() => go("/new")}>
        {words.begin}
      </Button>
      <nav className="rooms">
        <Link href="/bench/new">{text.bench.begin}</Link>
        <Link href="/shelf">{text.shelf}</Link>
        <Link href="/practice">{text.practice.begin}</Link>
      </nav>
      {jobs !== undefined && jobs.length > 0 && (
        <TextInput
          size="lg"
          mt="md"
          type="search"
          aria-label={words.find}
          placeholder={words.find}
          value={find}
          onChange={(event) => setFind(event.currentTarget.value)}
        />
      )}
      {jobs?.length === 0 && <p>{words.none}</p>}
      {jobs !== undefined && jobs.length > 0 && found.length === 0 && <p>{words.nothingFound}</p>}
      <Lines title={words.groups.us} jobs={ours} />
      {waitedFor.map((who) => (
        <Lines key={who} title={words.groups[who]} jobs={found.filter((job) => groupOf(job) === who).sort(byPromise)} />
      ))}
      {shown.length > 0 && (
        <section>
          <h2>{words.demo}</h2>
          <p>{words.demoAbout}</p>
          <button type="button" className="big-key quiet" onClick={() => ledger.putAway(shown.map(({ id }) => id))}>
            {words.demoAway}
          </button>
        </section>
      )}
    </main>
  );
}

function Lines({ title, jobs }: { readonly title: string; readonly jobs: readonly JobLine[] }) {
  if (jobs.length === 0) return null;
  return (
    <section>
      <h2>{title}</h2>
      <ul className="ledger">
        {jobs.map((job) => (
          <li key={job.id}>
            <Link href={job.loose === true ? `/bench/${job.id}` : `/job/${job.id}/next`} className="line">
              <span className="line-number">{job.number}</span>
              <span className="line-main">{job.complaint}</span>
              <span className="line-side">
                {[job.demo ? text.jobs.demoMark : "", job.customer, job.machine.replaceAll("-", " "), ...waitsFor(job)]
                  .filter((word) => word !== "")
                  .join(" · ")}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Groups after our own, in the order in which somebody might have to be called. */
const waitedFor = ["customer", "part", "other", "money", "nobody"] as const;

function groupOf({ awaited, end }: JobLine): AwaitedBy {
  if (awaited !== undefined) return awaited.who;
  return end === undefined ? "us" : end === "waiting" ? "other" : "nobody";
}

/** What was promised first stands first, and before what was promised to nobody. */
function byPromise(a: JobLine, b: JobLine): number {
  const [first = "9", second = "9"] = [a.awaited?.by, b.awaited?.by];
  return first < second ? -1 : first > second ? 1 : 0;
}

/** What a job waits for and by when, as far as it is told. */
function waitsFor(job: JobLine): readonly string[] {
  const { what, by } = job.awaited ?? {};
  return [
    ...(what === undefined ? [] : [groupOf(job) === "us" ? text.jobs.arrived(what) : what]),
    ...(by === undefined ? [] : [text.jobs.by(by.replace("T", " ").slice(0, 16))]),
  ];
}

/** Every word typed must stand somewhere in the line, or in what its group is called. */
function holds(job: JobLine, typed: string): boolean {
  const state = text.jobs.groups[groupOf(job)];
  const line = [job.number, job.customer, job.complaint, job.machine, state, ...waitsFor(job)].join(" ").toLowerCase();
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((word) => line.includes(word));
}
