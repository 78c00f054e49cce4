import type { Meter, Quantity, Shown } from "../meter/index.ts";
import type { ClosingEvent } from "./closing-event.ts";
import type { MoneyEvent } from "./money-event.ts";
import type { VisitEvent } from "./visit-event.ts";

/** One job as its file tells it: the machine, the customer, and everything that happened, in order. */
export interface Job {
  readonly id: string;
  /** Family sheet by name, or a list of kinds in order for a branch: `plug,cord,heater:2kW`. */
  readonly sheet:
    | { readonly kind: "family"; readonly name: string }
    | { readonly kind: "branch"; readonly kinds: string };
  readonly machine: JobMachine;
  /** Cost file by name: `data/costs/<name>.yaml`. */
  readonly shop: string;
  /** Name and place as first told; an event `customer` knows more. */
  readonly customer: { readonly authority?: number; readonly name?: string; readonly place?: string };
  readonly complaint: string;
  /** Day of the job, as `2026-03-04`. */
  readonly date?: string;
  /** Job this one comes back from. */
  readonly returnOf?: string;
  readonly events: readonly JobEvent[];
}

export interface JobMachine {
  readonly ageYears?: number;
  /** Price of a comparable new machine, where the job knows better than the shop's list. */
  readonly replacementPrice?: number;
  /** Day on which the model's last unit was placed on the market, ISO 8601: the maker's duty to deliver parts runs from it. */
  readonly lastUnit?: string;
  /** Slot → variant, as known before anything is looked at. */
  readonly answers: ReadonlyMap<string, Located>;
  /** "cut-out absent", "insert cut-out-3 like one-shot after one-shot.b" */
  readonly differs: readonly Located[];
  /** `heater.P` → `2400 W` from the type plate. */
  readonly plate: ReadonlyMap<string, Located>;
}

/** A text with the line it stood on. */
export interface Located {
  readonly text: string;
  readonly line: number;
}

/** What every event carries. Its id is its position: `e1` is the first. */
export interface EventFrame {
  readonly id: string;
  readonly line: number;
  /** Minutes since the job began, where written. */
  readonly atMinutes?: number;
  readonly by?: string;
}

export type JobEvent = EventFrame & EventBody;

export type EventBody =
  | ClosingEvent
  | { readonly kind: "told" | "heard" | "seen"; readonly answers: readonly SignAnswer[] }
  | { readonly kind: "answered"; readonly slots: readonly { readonly slot: string; readonly variant: string }[] }
  | { readonly kind: "looked"; readonly at: string; readonly mode?: string; readonly found: "bad" | "good" }
  | { readonly kind: "opened" | "closed"; readonly access: readonly string[] }
  /** The plug is out; nothing is proved dead by that. */
  | { readonly kind: "unplugged" }
  /** Plug out and proved dead with a two-pole tester: a new act after every energising. */
  | { readonly kind: "isolated"; readonly tester?: string }
  | { readonly kind: "energised"; readonly through?: string }
  | ({ readonly kind: "measured" } & Measured)
  | {
      readonly kind: "counted";
      readonly set: ReadingSet;
      readonly from?: string;
      readonly to?: string;
      readonly good: number;
      readonly of: number;
    }
  | { readonly kind: "cannot"; readonly step: string; readonly why?: string }
  | {
      readonly kind: "did";
      readonly remedy: string;
      readonly on: string;
      readonly worked?: boolean;
      readonly price?: number;
    }
  /** Why a protector opened. */
  | { readonly kind: "why"; readonly protector: string; readonly reason: string }
  | { readonly kind: "withdraws"; readonly event: string }
  | { readonly kind: "note"; readonly text: string }
  | VisitEvent
  | MoneyEvent
  /** A kind this version does not know: kept and shown, never dropped. */
  | { readonly kind: "unknown"; readonly name: string; readonly text: string };

export interface SignAnswer {
  readonly sign: string;
  readonly answer: string;
}

/** How a set of readings was taken: all of it the same for each of them. */
export interface ReadingSet {
  readonly state:
    | { readonly kind: "plug out" }
    | { readonly kind: "live"; readonly step?: string; readonly condition?: string; readonly command?: string }
    | { readonly kind: "bench" };
  readonly pulled: readonly string[];
  readonly freed: readonly string[];
  readonly hands: ReadonlyMap<string, number>;
  /** Meter by name; absent = the shop's first that can do it. */
  readonly meter?: string;
  readonly leads: "nulled" | "not nulled" | { readonly ohms: number };
  /** Degrees of the part read ("hot: 40"). */
  readonly degrees?: number;
}

export interface Measured {
  readonly set: ReadingSet;
  readonly readings: readonly MeasuredReading[];
}

/** One reading between two points, at the plug, or of a cause; several typed in one go are several of these. */
export interface MeasuredReading {
  readonly quantity: Quantity;
  readonly from?: string;
  readonly to?: string;
  readonly joinedWith: readonly string[];
  readonly measure?: { readonly cause: string; readonly id: string };
  readonly shown: Shown;
}

/** Meters by id, as read from `data/meters`. */
export type Meters = ReadonlyMap<string, Meter>;
