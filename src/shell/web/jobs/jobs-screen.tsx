import { Button, TextInput } from "@mantine/core";
import { useCallback, useState } from "react";
import { Link, useLocation } from "wouter";
import type { JobLine } from "../../store/database.ts";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";
import { useReadyJobs } from "./use-ready-jobs.ts";

/** Every job of this device, those in hand first. */
export function JobsScreen() {
  const { db, ledger } = useApp();
  const [, go] = useLocation();
  const [find, setFind] = useState("");
  const jobs = useLive(useCallback(() => db.jobs.orderBy("touched").reverse().toArray(), [db]));
  const words = text.jobs;
  const found = (jobs ?? []).filter((job) => holds(job, find));
  const open = found.filter(({ end }) => end === undefined);
  useReadyJobs(open);
  const waiting = found.filter(({ end }) => end === "waiting");
  const shown = (jobs ?? []).filter(({ demo }) => demo === true);
  const closed = found.filter(({ end }) => end === "mended" || end === "stopped");
  return (
    <main className="column jobs-list">
      <h1>{words.title}</h1>
      <Button size="lg" fullWidth className="key" onClick={() => go("/new")}>
        {words.begin}
      </Button>
      <p>
        <Link href="/bench/new" className="line-key">
          {text.bench.begin}
        </Link>
      </p>
      <p>
        <Link href="/shelf" className="line-key">
          {text.shelf}
        </Link>
      </p>
      <p>
        <Link href="/practice" className="line-key">
          {text.practice.title}
        </Link>
      </p>
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
      <Lines title={words.open} jobs={open} />
      <Lines title={words.waiting} jobs={waiting} />
      <Lines title={words.closed} jobs={closed} />
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
                {[job.demo ? text.jobs.demoMark : "", job.customer, job.machine.replaceAll("-", " ")]
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

/** Every word typed must stand somewhere in the line. */
function holds(job: JobLine, typed: string): boolean {
  const line = [job.number, job.customer, job.complaint, job.machine].join(" ").toLowerCase();
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((word) => line.includes(word));
}
