import type { BenchRound, BenchTest, Grade } from "../../../core/bench/index.ts";
import type { LedgerEvent, ReadGood, WrittenEvent } from "../../../core/ledger/index.ts";
import type { Outlook, Plan, WorkState } from "../../../core/plan/index.ts";
import type { Belief, Explanation, Legs } from "../../../core/suspect/index.ts";
import type { Branch, Traced } from "../../../core/trace/index.ts";
import type { PlaceValues } from "../../words/good-values.ts";
import type { TestabilityRow } from "../../words/testability.ts";
import type { VerificationList } from "../../words/verification.ts";
import type { ChoicesView } from "./choices-view.ts";
import type { ClosingView, safetyOffers } from "./closing-view.ts";
import type { AskPapers, PapersAnswers } from "./papers-protocol.ts";
import type { PowerLogView } from "./power-log-view.ts";
import type { SheetView } from "./sheet-view.ts";

/** A family sheet as the form for a new job offers it. */
export interface Family {
  readonly name: string;
  readonly title: string;
  readonly slots: readonly {
    readonly id: string;
    readonly ask: string;
    readonly variants: readonly { readonly id: string; readonly look: string }[];
  }[];
  /** Ratings that the type plate may tell: `heater.P`, "heater: watts". */
  readonly plate: readonly { readonly id: string; readonly says: string }[];
}

/** A job of the demonstration, as its file tells it. */
export interface Example {
  readonly name: string;
  readonly text: string;
}

/** Everything that may be named on a job, in the words a person knows it by. */
export interface Desk {
  readonly points: readonly { readonly id: string; readonly says: string }[];
  readonly plugs: readonly string[];
  readonly parts: readonly { readonly id: string; readonly says: string }[];
  /** Parts that the machine has whatever its open slots hold: it may have them otherwise than its sheet. */
  readonly differing: readonly { readonly id: string; readonly says: string; readonly ratings: readonly string[] }[];
  readonly steps: readonly string[];
  readonly signs: readonly { readonly id: string; readonly ask: string; readonly answers: readonly string[] }[];
  /** Slots that are still open. */
  readonly slots: Family["slots"];
}

/** How likely each fault is: known well before the next step is. */
export type FaultOdds = Pick<Belief, "parts" | "nothingWrong" | "notOnThisSheet" | "severalFaults">;

/** What was expected of each observation if a part fails in one way, what was found, and how much that says. */
export type FaultReasons = Omit<Explanation, "observations"> & {
  readonly seen: readonly { readonly says: string; readonly predicted: string; readonly weight: number }[];
};

/** All that the screens show of one job, worked out. Odds, money and minutes as the core gives them. */
export interface JobView {
  readonly plan: Plan;
  /** What may be said aloud before the first visit; there on the telephone. */
  readonly outlook?: Outlook;
  readonly belief: FaultOdds;
  /** The reading that sits worst with all the others, in words; present when nothing explains everything. */
  readonly worst?: string;
  /** What lies between the two points of a reading, by the id of its probe. */
  readonly ways: Readonly<Record<string, readonly Traced[]>>;
  /** Readings that came out good and narrowed what is asked next. */
  readonly readGood: readonly ReadGood[];
  readonly work: WorkState;
  /** What is owed to the last repair; absent where nothing was mended, or the last repair is said to have failed. */
  readonly verification?: VerificationList & {
    readonly repair: string;
    readonly finished: boolean;
    /** Found since the repair, and still not as in a good machine. */
    readonly stillAmiss: readonly string[];
    /** Nothing else is thought to be wrong. */
    readonly inOrder: boolean;
    /** Look, earth and insulation passed since; where nothing was touched they are not asked. */
    readonly mayEnergise: boolean;
    /** A safety test failed: it stays unplugged. */
    readonly hasFailed: boolean;
    /** Nothing was opened and no part mended: no safety test stands before the end of the job. */
    readonly isUntouched: boolean;
  };
  /** Words of everything learned, by the place of its event in the job file. */
  readonly told: readonly { readonly event: number; readonly says: string }[];
  readonly desk: Desk;
  /** Spoken names of covers, by id. */
  readonly covers: Readonly<Record<string, string>>;
  readonly title: string;
  readonly currency: string;
  /** What an hour of work costs, and the minutes after which one stops and talks. */
  readonly perHour: number;
  readonly timeStopMinutes: number;
}

/** A kind of part, and the ratings that may be told of it, each with what holds where nothing is told. */
export interface KindOffer {
  readonly id: string;
  readonly says: string;
  /** Each by the kind's own name for it, as it is called aloud, and its usual value. */
  readonly ratings: readonly { readonly name: string; readonly says: string; readonly value: string }[];
}

/** A loose part's test as far as it went. */
export interface BenchView {
  /** What can hurt with this part, in words. */
  readonly cautions: readonly string[];
  readonly says: string;
  readonly ratings: KindOffer["ratings"];
  readonly test: BenchTest;
  /** The meter that is taken for a step, by its index. */
  readonly meters: Readonly<Record<number, { readonly id: string; readonly says: string }>>;
  readonly rounds: readonly BenchRound[];
  readonly grade: Grade;
}

/** A practice job as far as it went: its machine by sheet and seed, and what was done to it, each as it was written down. */
export interface PracticeSoFar {
  readonly sheet: string;
  readonly seed: string;
  readonly acts: readonly (readonly WrittenEvent[])[];
}

/** The call that begins a practice job. */
export interface PracticeBegun {
  readonly answers: Answered;
  readonly complaint: string;
  readonly events: readonly WrittenEvent[];
}

/** What the machine answered; `told`: what was not done, and why. */
export interface PracticeSaid {
  /** Anything of it was about the machine: all else is written down as on any job. */
  readonly touched: boolean;
  readonly events: readonly WrittenEvent[];
  readonly told: readonly string[];
}

/** What was wrong, and two histories of the same machine. */
export interface PracticeEnd {
  readonly hidden: readonly string[];
  readonly yours: readonly { readonly minutes: number; readonly says: string }[];
  readonly plan: PracticeEnd["yours"];
  readonly sums: readonly { readonly says: string; readonly yours: string; readonly plan: string }[];
}

/** Slot → variant. */
export type Answered = Readonly<Record<string, string>>;

/** What the engine is asked. */
export type Ask =
  | { readonly do: "families" }
  | { readonly do: "examples" }
  /** Kinds that a branch can be made of. */
  | { readonly do: "kinds" }
  /** Kinds that can be tested loose. */
  | { readonly do: "bench kinds" }
  | { readonly do: "bench"; readonly events: readonly LedgerEvent[] }
  | { readonly do: "practice begins"; readonly sheet: string; readonly seed: string }
  | ({ readonly do: "practise"; readonly asked: readonly WrittenEvent[] } & PracticeSoFar)
  | ({ readonly do: "practice ends"; readonly ended: "mended" | "stopped" } & PracticeSoFar)
  | { readonly do: "sheet" | "good values" | "testability"; readonly name: string; readonly answers: Answered }
  /** Fetches what every job needs; a view that is kept then waits for nothing, so that no more is read yet. */
  | { readonly do: "wake" }
  /** Works at a job that may be opened soon, for as long as nobody would mind waiting; asked again until it is done. */
  | { readonly do: "make ready"; readonly text: string }
  /** The possible faults of a job, before its next step is worked out. */
  | { readonly do: "odds"; readonly text: string }
  | { readonly do: "reasons"; readonly text: string }
  /** How far the blame of each assembly is proved: it asks every likely fault what it commands, which no step waits for. */
  | { readonly do: "boards"; readonly text: string }
  /** The circuit of a job's machine, branch by branch. */
  | { readonly do: "branches"; readonly text: string }
  /** What the customer can choose between; `date`: today, ISO 8601. */
  | { readonly do: "choices"; readonly text: string; readonly date: string }
  /** How it stands between repair and door. */
  | { readonly do: "closing"; readonly text: string }
  /** What a log of the power at the plug shows of a job's machine. */
  | {
      readonly do: "power log";
      readonly text: string;
      readonly file: string;
      readonly log: string;
      readonly column?: string;
    }
  /** Can events be read back as they are about to be written? */
  | { readonly do: "event faults"; readonly events: readonly WrittenEvent[] }
  /** Whose rules of testing there are, and whose accuracy may stand in for a reading's own. */
  | { readonly do: "safety offers" }
  | AskPapers
  | { readonly do: "work out"; readonly text: string; readonly where: "telephone" | "machine" };

export interface Answers extends PapersAnswers {
  readonly families: readonly Family[];
  readonly examples: readonly Example[];
  readonly kinds: readonly KindOffer[];
  readonly "bench kinds": readonly KindOffer[];
  readonly bench:
    | { readonly ok: true; readonly view: BenchView }
    | { readonly ok: false; readonly issues: readonly string[] };
  readonly "practice begins": PracticeBegun;
  readonly practise: PracticeSaid;
  readonly "practice ends": PracticeEnd;
  /** Undefined where the answers exclude one another. */
  readonly sheet: SheetView | undefined;
  readonly "good values": readonly PlaceValues[];
  /** Undefined while it goes on: asked again until it is done, it lets other questions pass. */
  readonly testability: readonly TestabilityRow[] | undefined;
  /** How many kinds of part it knows. */
  readonly wake: number;
  /** Done? */
  readonly "make ready": boolean;
  /** Undefined where the job is at fault: working it out tells how. */
  readonly odds: FaultOdds | undefined;
  readonly reasons: readonly FaultReasons[];
  readonly boards: readonly Legs[];
  readonly branches: readonly Branch[];
  readonly choices:
    | { readonly ok: true; readonly view: ChoicesView }
    | { readonly ok: false; readonly issues: readonly string[] };
  readonly closing:
    | { readonly ok: true; readonly view: ClosingView }
    | { readonly ok: false; readonly issues: readonly string[] };
  readonly "power log":
    | { readonly ok: true; readonly view: PowerLogView }
    | { readonly ok: false; readonly issues: readonly string[] };
  readonly "event faults": readonly string[];
  readonly "safety offers": ReturnType<typeof safetyOffers>;
  readonly "work out":
    | { readonly ok: true; readonly view: JobView }
    | { readonly ok: false; readonly issues: readonly string[] };
}

export interface Call {
  readonly id: number;
  readonly ask: Ask;
  readonly facts: string;
  /** The shop's own words about itself, where the device has them: `readOwnShop` reads them. */
  readonly own?: string;
}

export type Reply =
  | { readonly id: number; readonly ok: true; readonly answer: Answers[Ask["do"]] }
  | { readonly id: number; readonly ok: false; readonly error: string };
