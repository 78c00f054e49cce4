import type { JobRecord, WrittenEvent } from "../../../core/ledger/index.ts";
import { askEngine } from "../engine/client.ts";
import type { PracticeSaid, PracticeSoFar } from "../engine/protocol.ts";

/** What was done to the machine of a practice job so far; undefined for any other job. */
export function practiceOf({ head, events, withdrawn }: JobRecord): PracticeSoFar | undefined {
  if (head.practice === undefined || head.sheet === undefined) return undefined;
  const acts = events.flatMap(({ id, kind, body }) =>
    kind === "practised" && !withdrawn.has(id) ? [body as readonly WrittenEvent[]] : [],
  );
  return { sheet: head.sheet, seed: head.practice.seed, acts };
}

/**
 * Has the machine of a practice job answer what is written on it: the answer written is passed over for its own.
 *
 * @returns undefined for any other job, and for what touches no machine
 */
export async function askMachine(
  record: JobRecord,
  asked: readonly WrittenEvent[],
): Promise<Omit<PracticeSaid, "touched"> | undefined> {
  const practice = practiceOf(record);
  if (practice === undefined) return undefined;
  const said = await askEngine({ do: "practise", ...practice, asked });
  if (!said.touched) return undefined;
  return { told: said.told, events: [{ kind: "practised", body: asked }, ...said.events] };
}
