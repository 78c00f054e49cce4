import type { JobEvent } from "../../core/ledger/index.ts";
import { cautionsFor } from "../../core/plan/index.ts";
import {
  type Act,
  coverOf,
  fillIn,
  type Names,
  namesFor,
  type Offer,
  type Outcome,
  type Practice,
  readLine,
  type View,
} from "../../core/practice/index.ts";
import { type Course, remediesIn } from "../../core/remedy/index.ts";
import { byPlan } from "../../core/trial/index.ts";
import { faultsInWords } from "../words/faults.ts";
import { readingsInBrief, setInBrief } from "../words/job-event.ts";
import { minutesInWords } from "../words/odds.ts";
import { besideInWords, hiddenInWords, historyInWords } from "../words/practice-account.ts";
import { coverName, dangerInWords, obstacleInWords, thingName } from "../words/practice-dangers.ts";
import { HELP, unclearInWords } from "../words/practice-help.ts";
import { nextStepInWords, runnerUpInWords, worthNaming } from "../words/step.ts";
import { typedLine } from "../words/typed-line.ts";
import { width, wrap } from "../words/wrap.ts";

const runnersUp = 3;
const NUMBERS = "To do it, once you are ready: a number, several, or `all`";
/** Longest list that is shown; the rest is only counted. */
const mostListed = 60;

/** The talk with a learner: lines in, lines out. Holds what was offered last, and whether the job is over. */
export class PracticeTalk {
  readonly #practice: Practice;
  readonly #names: Names;
  #offer: Offer | undefined;
  #ended: "mended" | "stopped" | undefined;
  #said = "";

  constructor(practice: Practice) {
    this.#practice = practice;
    const { machine, repairs } = practice.desk;
    this.#names = namesFor(machine, repairs);
  }

  get over(): boolean {
    return this.#ended !== undefined;
  }

  /** The call, and where the learner stands. */
  greeting(): string[] {
    return [
      "The customer rings and says:",
      ...this.#practice.events
        .flatMap((event) => this.#found(event))
        .flatMap((text) => wrap(text, width, "  ", "    ")),
      "",
      ...wrap(
        "Ask more while you are on the telephone, or go on: you stand before it, it is shut and plugged in. `help` tells what can be typed, `next` gives a hint, `stop` ends.",
        width,
      ),
    ];
  }

  /** PLUG OUT or LIVE, what is open and off, minutes so far. */
  prompt(): string {
    const { place, minutes } = this.#practice;
    const energy = place.live ? "LIVE" : place.provedDead ? "PLUG OUT, proved dead" : "PLUG OUT, not proved dead";
    const open = place.open.size === 0 ? "shut" : `open: ${[...place.open].join(", ")}`;
    const off = [...place.pulled, ...place.freed];
    const held = [...place.hands].map(([input, to]) => `${input} ${to}`);
    return `${[energy, open, ...(off.length > 0 ? [`off: ${off.join(", ")}`] : []), ...held, `${Math.round(minutes)} min`].join(" · ")} > `;
  }

  /** Answers one typed line; several acts may stand on it, parted by semicolons. What is refused ends the line. */
  hear(line: string): string[] {
    const lines: string[] = [];
    const pieces = line.split(";");
    for (let piece = pieces.shift(); piece !== undefined && !this.over; piece = pieces.shift()) {
      const [filled, ...more] = fillIn(piece, this.#offer).split(";");
      pieces.unshift(...more);
      const byNumber = filled !== piece.trim().replace(/\s+/g, " ");
      const { said, done, acted } = this.#one(filled);
      lines.push(...said);
      // Numbers of a list mean nothing any more once something else was done; those of a hint wait for the preparations.
      if (acted && !byNumber && this.#offer?.of !== "line") this.#offer = undefined;
      const goesOn = done || (pieces.length > 0 && fillIn(pieces[0], this.#offer) !== pieces[0].trim());
      if (goesOn) continue;
      const rest = pieces.map((one) => one.trim()).filter((one) => one !== "");
      if (rest.length > 0) lines.push(`Left for now: ${rest.join("; ")}`);
      break;
    }
    return lines;
  }

  /** What was wrong, and the two histories; `inputEnded`: nobody ended the job, the lines did. */
  ending(inputEnded: boolean): string[] {
    const practice = this.#practice;
    const yours = practice.end(this.#ended ?? "stopped");
    const plan = practice.followed(byPlan());
    const { machine, shop } = practice.desk;
    return [
      ...(inputEnded ? ["The lines ended here, so the job is left as it stands: stopped, not mended."] : []),
      ...(this.#said === "" ? [] : wrap(`You said: ${this.#said}`, width)),
      ...hiddenInWords(practice.truth.drawn).flatMap((text) => wrap(text, width)),
      "",
      "Two job histories of this machine: the same faults, the same meter errors, the same witnesses.",
      "",
      ...besideInWords(yours, plan, machine, shop.currency),
    ];
  }

  /** `done`: what follows on the line may go on; `acted`: something was done at the machine. */
  #one(piece: string): { readonly said: readonly string[]; readonly done: boolean; readonly acted?: boolean } {
    const reading = readLine(piece, this.#names);
    switch (reading.kind) {
      case "nothing":
        return { said: [], done: true };
      case "unclear":
        return { said: wrap(unclearInWords(reading.word, reading.expected, reading.near), width), done: false };
      case "offer":
        return { said: this.#offered(reading.offer), done: false };
      case "view":
        return { said: this.#view(reading.view, reading.of), done: true };
      case "undo":
        return { said: this.#answer(undefined, this.#practice.undo()), done: true };
      case "act": {
        const outcome = this.#practice.do(reading.act);
        const soAlready = outcome.kind === "obstacle" && outcome.obstacle.because === "already so";
        return {
          said: this.#answer(reading.act, outcome),
          done: outcome.kind === "done" || soAlready,
          acted: outcome.kind === "done",
        };
      }
    }
  }

  #answer(act: Act | undefined, outcome: Outcome): string[] {
    const { machine } = this.#practice.desk;
    switch (outcome.kind) {
      case "danger":
        return dangerInWords(outcome.danger, outcome.of, machine).flatMap((text) => wrap(text, width, "! ", "  "));
      case "obstacle":
        return wrap(obstacleInWords(outcome.obstacle, machine), width);
      case "taken back":
        return [`Taken back: ${outcome.act.do}.`];
      case "done":
        if (act?.do === "finish") this.#ended = "mended";
        if (act?.do === "stop") {
          this.#ended = "stopped";
          this.#said = act.says;
        }
        return [...outcome.events.flatMap((event) => this.#found(event)), ...this.#after(act, outcome)].flatMap(
          (text) => wrap(text, width, "", "    "),
        );
    }
  }

  /** What an event found, one line a finding. */
  #found(event: JobEvent): string[] {
    const { machine } = this.#practice.desk;
    switch (event.kind) {
      case "told":
      case "heard":
      case "seen":
        return event.answers.map(({ sign, answer }) => {
          const ask = machine.signs.find(({ id }) => id === sign)?.ask ?? sign;
          return `${event.kind}: ${ask} ${answer}`;
        });
      case "looked":
        return [`${thingName(event.at, machine)}: ${event.found === "good" ? "looks good" : this.#badLook(event.at)}`];
      case "measured":
        return readingsInBrief(event).map((text) => `${text}${setInBrief(event.set)}`);
      case "counted":
        return [`${event.from} to ${event.to}: ${event.good} good of ${event.of}`];
      case "opened":
        return event.access.map((id) => `off: ${coverName(id, machine)}${this.#openingOf(id)}`);
      case "did":
        return [`done: ${thingName(event.on, machine)}: ${event.remedy}`];
      default:
        return [];
    }
  }

  #badLook(at: string): string {
    const { machine } = this.#practice.desk;
    const cause = machine.causes.find(({ id }) => id === at)?.look?.says;
    const looks =
      machine.parts.find(({ id }) => id === at)?.instance.modes.flatMap(({ looks: text }) => text ?? []) ?? [];
    const seen = cause ?? [...new Set(looks)].join(", or ");
    return seen === "" ? "bad" : `bad (${seen})`;
  }

  #openingOf(id: string): string {
    const group = this.#practice.desk.machine.access.find((one) => one.id === id);
    if (group === undefined) return "";
    const cautions = cautionsFor([], group.cautions, [], []).flatMap(({ lines }) => lines);
    const notes = [minutesInWords(group.openMinutes), ...group.tools.map((tool) => `with ${tool}`), ...group.needs];
    return ` (${notes.join("; ")})${cautions.map((text) => ` ! ${text}`).join("")}`;
  }

  /** What has to be said after an act, beyond what it found. */
  #after(act: Act | undefined, { works }: Extract<Outcome, { kind: "done" }>): string[] {
    switch (act?.do) {
      case "plug out":
        return ["The plug is out, in sight or in your pocket. Nothing is proved by that."];
      case "plug in":
        return [
          "Covers on, through a 30 mA RCD lead, stand clear. Stop at smell, smoke, tripping or tingling.",
          ...(this.#practice.events.some(({ kind }) => kind === "did") && !this.#practice.place.verified
            ? [
                "What was mended is energised only after a look, the earth and the insulation: `measure insulation L+N earth`.",
              ]
            : []),
        ];
      case "prove dead":
        return ["Tester on a known live point, all poles and earth: dead; on the live point again."];
      case "discharge":
        return ["Clip resistor on, measured, waited, measured again: nothing left behind the open covers."];
      case "measure":
        return act.run !== undefined && act.pairs.length > 0
          ? ["Clipped on dead, run, read, plug out again. Prove dead before anything is touched, the clips too."]
          : [];
      case "mend":
        return ["Not seen to work yet: put it back together, `plug in`, `verify`."];
      case "verify":
        return [this.#verdict(works === true)];
      case "finish":
        return ["Closed as mended."];
      case "stop":
        return ["Stopped: said what was found, left safe."];
      case "close":
      case "pull":
      case "push":
      case "free":
      case "refit":
      case "hold":
      case "why":
        return ["Done."];
      default:
        return [];
    }
  }

  #verdict(works: boolean): string {
    const last = this.#practice.events.at(-1);
    if (!works) return "It does not work yet.";
    return last?.kind === "seen"
      ? "What was complained of is gone, as far as it shows here."
      : "What was complained of does not show here within a quarter of an hour: the customer will tell.";
  }

  #offered(all: Offer): string[] {
    const offer = this.#worthOffering(all);
    this.#offer = offer;
    if (offer.items.length === 0) return ["Nothing is left of that."];
    const shown = offer.items.slice(0, mostListed);
    const lines = shown.flatMap(({ id, says }, n) => {
      const course = offer.of === "remedy" ? this.#practice.desk.repairs.get(id) : undefined;
      const name =
        says === "" || says === id ? id : offer.of === "remedy" || offer.of === "why" ? says : `${id}: ${says}`;
      return wrap(
        course === undefined ? name : `${says} (${this.#priceOf(course)})`,
        width,
        `${String(n + 1).padStart(3)}  `,
        "     ",
      );
    });
    if (offer.items.length > shown.length)
      lines.push(`     ${offer.items.length - shown.length} more: type more of the name`);
    return [...lines, `     (${offer.before} a number${offer.several ? ", or several, or `all`" : ""})`];
  }

  /** Questions that were answered are left out, and of what can be seen, what does not show at a machine that runs. */
  #worthOffering(offer: Offer): Offer {
    if (offer.of !== "sign") return offer;
    const { signs } = this.#practice.desk.machine;
    const answered = this.#practice.answered(offer.before === "ask" ? "told" : "seen");
    const shows = new Set(
      signs.filter(({ in: step, rule }) => step !== undefined || rule.kind === "when-first").map(({ id }) => id),
    );
    return {
      ...offer,
      items: offer.items.filter(({ id }) => !answered.has(id) && (offer.before === "ask" || shows.has(id))),
    };
  }

  #priceOf({ minutes, price, fetched }: Course): string {
    const part = price > 0 ? `, part about ${Math.round(price)} ${this.#practice.desk.shop.currency}` : "";
    return `${minutesInWords(minutes)}${part}${fetched ? ", not in the van: a second visit" : ""}`;
  }

  #view(view: View, of: string): string[] {
    const practice = this.#practice;
    const { machine, shop } = practice.desk;
    switch (view) {
      case "help":
        return [...HELP];
      case "state":
        return [this.prompt().replace(/ > $/, "")];
      case "history":
        return historyInWords(practice.end("stopped"), machine, width);
      case "faults":
        return faultsInWords(practice.think().belief);
      case "next":
        return this.#hint(shop.currency);
      case "remedies":
        return this.#one(`mend ${of}`).said.slice();
      case "where":
        return of === "" ? this.#covers() : this.#where(of);
    }
  }

  /** The next step as any job would be told it, with the lines to type for it. */
  #hint(currency: string): string[] {
    const [step, ...rest] = this.#practice.think().plan.steps;
    if (step === undefined) return ["Nothing is left to do: `finish`, or `stop`."];
    const asked = step.questions.map(typedLine);
    const mends = step.course === undefined ? [] : remediesIn(step.course.id).map(({ id }) => `mend ${id}`);
    const ends = step.do === "stop" || step.do === "talk" ? ["stop"] : step.do === "verify" ? ["verify"] : [];
    const lines = asked.length > 0 ? asked : [...mends, ...ends];
    this.#offer = { of: "line", before: "", after: "", items: lines.map((id) => ({ id, says: "" })), several: true };
    const numbered = (line: string, n: number): string => `${n + 1}  ${line}`;
    return [
      ...nextStepInWords(step, currency, {
        answers: {
          heading: NUMBERS,
          lines: ({ questions }) => questions.map((question, n) => numbered(typedLine(question), n)),
        },
      }),
      ...(asked.length > 0 ? [] : ["", `  ${NUMBERS}`, ...lines.map((line, n) => `    ${numbered(line, n)}`)]),
      ...(rest.length > 0
        ? [
            "",
            "Or instead",
            ...worthNaming(rest)
              .slice(0, runnersUp)
              .flatMap((one) => runnerUpInWords(one, currency)),
          ]
        : []),
    ];
  }

  #covers(): string[] {
    const { machine } = this.#practice.desk;
    const behind = (id: string): string =>
      [
        ...machine.plugs.filter(({ access }) => access === id).map((plug) => plug.id),
        ...machine.parts.filter(({ access, joint }) => access === id && joint === undefined).map((part) => part.id),
        ...machine.causes.filter(({ look }) => look?.access === id).map((cause) => cause.id),
      ].join(", ");
    const inView = machine.causes.filter(({ look }) => look?.access === undefined).map(({ id }) => id);
    return [
      ...machine.access.flatMap(({ id, says, openMinutes, closeMinutes, after }) =>
        wrap(
          `${id} (${says}; ${openMinutes} + ${closeMinutes} min${after === undefined ? "" : `; after ${after}`}): ${behind(id)}`,
          width,
          "  ",
          "      ",
        ),
      ),
      ...wrap(`in plain view: ${inView.join(", ")}`, width, "  ", "      "),
    ];
  }

  #where(of: string): string[] {
    const { machine } = this.#practice.desk;
    const reading = readLine(`look ${of}`, this.#names);
    const plug = machine.plugs.find(({ id }) => id.toLowerCase() === of.toLowerCase());
    const ids =
      plug !== undefined ? [plug.id] : reading.kind === "act" && reading.act.do === "look" ? reading.act.at : [];
    if (ids.length === 0)
      return reading.kind === "offer"
        ? this.#offered({ ...reading.offer, before: "where" })
        : this.#one(`look ${of}`).said.slice();
    return ids.flatMap((id) => {
      const cover = coverOf(machine, id);
      const points = machine.points.filter((point) => point.id.startsWith(`${id}.`) && !point.id.endsWith(" inside"));
      return [
        ...wrap(
          `${thingName(id, machine)}: ${cover === undefined ? "in plain view" : `behind the ${cover.says} (${cover.id})`}`,
          width,
          "  ",
          "    ",
        ),
        ...points.map((point) => `    ${point.id.padEnd(18)} ${point.says}`),
      ];
    });
  }
}
