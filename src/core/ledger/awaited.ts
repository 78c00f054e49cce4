import type { JobRecord } from "./record.ts";

/** Who or what a job waits for; `other`: for what was written in words when it was left; `nobody`: it is done with. */
export type AwaitedBy = "us" | "customer" | "part" | "other" | "money" | "nobody";

/** Who or what a job waits for now. */
export interface Awaited {
  readonly who: AwaitedBy;
  /** The parts that are on order or have come, or what was written when it was left. */
  readonly what?: string;
  /** Promised or due: a day or a moment, ISO 8601. */
  readonly by?: string;
}

/** Pence are not owed to anybody: what is left of rounding. */
const NOTHING_OWED = 0.005;

/**
 * Who or what a job waits for, from its events: the last word counts, what was taken back does not.
 *
 * A job that is in hand waits for a part that is on order, else for the customer who was shown choices and has said nothing
 * since, else for us. A job that has ended waits for its money, as far as invoices were handed over and not paid.
 */
export function awaitedOf({ events, withdrawn, end }: JobRecord): Awaited {
  const orders = new Map<string, { readonly says: string; readonly due?: string; readonly arrived: boolean }>();
  const visits = new Map<string, string>();
  let asked = false;
  let left: string | undefined;
  let owed = 0;
  for (const { id, kind, body } of events) {
    if (withdrawn.has(id)) continue;
    if (kind === "ordered") {
      const part = wordIn(body, "part") ?? "";
      orders.set(part, {
        says: fieldOf(body, "says") ?? part,
        ...optional("due", fieldOf(body, "due")),
        arrived: false,
      });
    } else if (kind === "arrived") {
      const part = wordIn(body, "part") ?? "";
      orders.set(part, { ...(orders.get(part) ?? { says: part }), arrived: true });
    } else if (kind === "visit") visits.set(fieldOf(body, "number") ?? "1", fieldOf(body, "at") ?? "");
    else if (kind === "offered") asked = true;
    else if (kind === "accepted" || kind === "declined") asked = false;
    else if (kind === "left") left = fieldOf(body, "waiting for");
    else if (kind === "issued") owed += Number(fieldOf(body, "total") ?? 0) * billed(fieldOf(body, "paper"));
    else if (kind === "paid") owed -= Number(wordIn(body, "amount") ?? 0);
  }
  if (end === "mended" || end === "stopped") return { who: owed > NOTHING_OWED ? "money" : "nobody" };
  const missing = [...orders.values()].filter(({ arrived }) => !arrived);
  if (missing.length > 0) {
    const due = missing.flatMap((order) => order.due ?? []).sort();
    return { who: "part", ...named(missing), ...optional("by", due.at(-1)) };
  }
  if (asked) return { who: "customer" };
  if (end === "waiting" && orders.size === 0) return { who: "other", ...optional("what", left) };
  const promised = [...visits.values()].filter((at) => at !== "").sort();
  return { who: "us", ...named([...orders.values()]), ...optional("by", promised.at(-1)) };
}

function named(parts: readonly { readonly says: string }[]): { readonly what?: string } {
  return parts.length === 0 ? {} : { what: parts.map(({ says }) => says).join(", ") };
}

/** A quote asks for nothing; a credit note's total is below zero. */
function billed(paper: string | undefined): number {
  return paper === "invoice" || paper === "credit note" ? 1 : 0;
}

/** A body that is the word alone, or has it under a key. */
function wordIn(body: unknown, key: string): string | undefined {
  return typeof body === "string" || typeof body === "number" ? String(body) : fieldOf(body, key);
}

function fieldOf(body: unknown, key: string): string | undefined {
  if (typeof body !== "object" || body === null || !Object.hasOwn(body, key)) return undefined;
  const value: unknown = Reflect.get(body, key);
  return typeof value === "string" || typeof value === "number" ? String(value) : undefined;
}

function optional<Key extends string>(key: Key, value: string | undefined): { readonly [key in Key]?: string } {
  return value === undefined ? {} : ({ [key]: value } as { readonly [key in Key]?: string });
}
