import { type Checked, IssueList } from "../issue/index.ts";
import type { Job, JobEvent } from "./job.ts";
import { NameBook } from "./name-book.ts";

/** Question of each slot and how its variants look, by id: `slotWords` of the sheet. */
type SlotWords = ReadonlyMap<string, { readonly ask: string; readonly looks: ReadonlyMap<string, string> }>;

/**
 * The job with its slots and variants under the sheet's own names, however they were written: by the question, by what a
 * variant looks like, or by the beginning of a name.
 */
export function withSlotNames(job: Job, slots: SlotWords, file?: string): Checked<Job> {
  const issues = new IssueList();
  const books = new Map(
    [...slots].map(([slot, { looks }]) => [slot, new NameBook([...looks.keys()].map((id) => [id]))]),
  );
  const known = new NameBook([...slots].map(([slot, { ask }]) => [slot, ask]));
  type Place = { readonly line: number; readonly at: readonly (string | number)[] };
  const idIn = (book: NameBook, name: string, place: Place, code: string, expected: string): string => {
    const meaning = book.mean(name);
    if (meaning.is === "one") return meaning.id;
    const hint = book.hint(name);
    issues.add({
      code,
      severity: "error",
      ...(file === undefined ? {} : { file }),
      ...place,
      found: `"${name}"`,
      expected,
      ...(hint === undefined ? {} : { hint }),
    });
    return name;
  };
  const named = (slot: string, variant: string, place: Place): readonly [string, string] => {
    const id = idIn(known, slot, place, "job.unknown-slot", "a slot of this sheet");
    // A look must be written out: "three wires" begins like three stages, and means two.
    const seen = [...(slots.get(id)?.looks ?? [])].find(([, look]) => look.toLowerCase() === variant.toLowerCase());
    const book = books.get(id);
    if (seen !== undefined || book === undefined) return [id, seen?.[0] ?? variant];
    return [id, idIn(book, variant, place, "job.unknown-variant", `one of ${id}, or how it looks`)];
  };
  const answers = new Map(
    [...job.machine.answers].map(([slot, { text, line }]) => {
      const [id, variant] = named(slot, text, { line, at: ["machine", "answers", slot] });
      return [id, { text: variant, line }];
    }),
  );
  const events = job.events.map((event, index): JobEvent => {
    if (event.kind !== "answered") return event;
    return {
      ...event,
      slots: event.slots.map(({ slot, variant }) => {
        const [id, chosen] = named(slot, variant, { line: event.line, at: ["events", index, "answered"] });
        return { slot: id, variant: chosen };
      }),
    };
  });
  return issues.conclude(() => ({ ...job, machine: { ...job.machine, answers }, events }));
}

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
