import type { Job } from "./job.ts";

/** Slots whose variant is known: from the head of the job and from its events. What `openCase` takes as answers. */
export function knownAnswers(job: Job): ReadonlyMap<string, string> {
  const answers = new Map([...job.machine.answers].map(([slot, answer]) => [slot, answer.text]));
  const withdrawn = withdrawnEvents(job);
  for (const event of job.events) {
    if (event.kind !== "answered" || withdrawn.has(event.id)) continue;
    for (const { slot, variant } of event.slots) answers.set(slot, variant);
  }
  return answers;
}

/** In what this machine differs from its family, type plate included: what `openCase` takes as differences. */
export function knownDifferences(job: Job): readonly string[] {
  const plate = [...job.machine.plate].map(([rating, value]) => `${rating} is ${value.text}`);
  return [...job.machine.differs.map((difference) => difference.text), ...plate];
}

/** Ids of events that a later one takes back. */
export function withdrawnEvents(job: Job): ReadonlySet<string> {
  return new Set(job.events.flatMap((event) => (event.kind === "withdraws" ? [event.event] : [])));
}
