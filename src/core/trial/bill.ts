import type { JobEvent, Measured } from "../ledger/index.ts";
import { accessChain, waitFor } from "../plan/index.ts";
import { priceOf, type Shop, stopCost } from "../remedy/index.ts";
import type { Access, Machine } from "../sheet/index.ts";
import type { History } from "./history.ts";

/** What one job came to. Money is in the shop's currency. */
export interface Bill {
  readonly minutes: number;
  readonly parts: number;
  readonly secondVisits: number;
  /** Work, parts, second visits, what coming back costs, and, where it was not mended, what is lost with the machine. */
  readonly money: number;
  readonly mended: boolean;
  readonly cameBack: boolean;
  /** New parts fitted, and how many of them replaced a good one. Cleaning, advice and remade connections are no parts. */
  readonly fitted: number;
  readonly wrong: number;
  /** Good connections that were remade. */
  readonly remade: number;
  /** Readings under power, by class. */
  readonly live: { readonly closed: number; readonly clipped: number; readonly handheld: number };
}

/** Minutes from proving dead to clipped on dead and back are in the shop's `clip` and `proveDead`. */
const PLUG_OUT_MINUTES = 0.3;

/**
 * Prices a history: the same rules for whoever worked, a learner, a plan or a rule of thumb.
 *
 * @param machine  the technician's: covers, points and minutes of its sheet
 */
export function billOf(history: History, machine: Machine, shop: Shop): Bill {
  const meter = new WorkClock(machine, shop);
  let parts = 0;
  let secondVisits = 0;
  let fitted = 0;
  let wrong = 0;
  let remade = 0;
  for (const event of history.events) {
    meter.take(event);
    const remedy = event.kind === "did" ? history.remedies.get(event.id) : undefined;
    if (remedy === undefined) continue;
    const { course, right } = remedy;
    meter.minutes += course.minutes;
    parts += course.price;
    if (course.fetched) secondVisits++;
    if (course.remakes === true && !right) remade++;
    if (course.remakes === true || course.price === 0) continue;
    fitted++;
    if (!right) wrong++;
  }
  meter.closeUp();
  const mended = history.ended === "mended";
  let money = priceOf(meter.minutes, shop) + parts + secondVisits * shop.secondVisit;
  if (history.cameBack) money += shop.comeback;
  if (!mended) money += stopCost(shop);
  return {
    minutes: meter.minutes,
    parts,
    secondVisits,
    money,
    mended,
    cameBack: history.cameBack,
    fitted,
    wrong,
    remade,
    live: meter.live,
  };
}

/** What had gone when an event of a history was done. */
export interface Spent {
  readonly minutes: number;
  /** Price of those minutes, parts and second visits. */
  readonly money: number;
}

/** What had gone after each event of a history, in their order; covers that are still open are not yet closed. */
export function spentAlong(history: History, machine: Machine, shop: Shop): readonly Spent[] {
  const meter = new WorkClock(machine, shop);
  let bought = 0;
  return history.events.map((event) => {
    meter.take(event);
    const course = event.kind === "did" ? history.remedies.get(event.id)?.course : undefined;
    if (course !== undefined) {
      meter.minutes += course.minutes;
      bought += course.price + (course.fetched ? shop.secondVisit : 0);
    }
    return { minutes: meter.minutes, money: priceOf(meter.minutes, shop) + bought };
  });
}

/** Counts minutes over the events of a job. */
class WorkClock {
  minutes = 0;
  readonly live = { closed: 0, clipped: 0, handheld: 0 };
  readonly #machine: Machine;
  readonly #shop: Shop;
  readonly #groups: ReadonlyMap<string, Access>;
  readonly #open = new Set<string>();
  readonly #pulled = new Set<string>();
  #position: string | undefined;
  #instrument: string | undefined;
  #energised = true;
  /** Minutes waited in the run that is on; undefined: it does not run. */
  #ran: number | undefined;
  #unproved = false;

  constructor(machine: Machine, shop: Shop) {
    this.#machine = machine;
    this.#shop = shop;
    this.#groups = new Map(machine.access.map((group) => [group.id, group]));
  }

  take(event: JobEvent): void {
    const { minutes } = this.#shop;
    switch (event.kind) {
      case "told":
      case "heard":
        this.minutes += minutes.ask * event.answers.length;
        return;
      case "seen":
        // The first look at a machine after a repair is its proof, at the shop's usual time.
        if (this.#unproved) {
          this.minutes += minutes.verify;
          this.#unproved = false;
          this.#energised = true;
          this.#ran = 0;
          return;
        }
        this.#run(Math.max(0, ...event.answers.map(({ sign }) => this.#waitFor(sign))));
        this.minutes += minutes.look * event.answers.length;
        return;
      case "answered":
        this.minutes += minutes.look * event.slots.length;
        return;
      case "looked":
        this.minutes += this.#machine.causes.find(({ id }) => id === event.at)?.look?.minutes ?? minutes.look;
        return;
      case "opened":
        for (const id of event.access) this.#openUp(id);
        return;
      case "closed":
        for (const id of event.access) this.#close(id);
        return;
      case "unplugged":
        this.#switchOff();
        return;
      case "isolated":
        this.#switchOff();
        this.minutes += minutes.proveDead;
        return;
      case "energised":
        this.#switchOn();
        return;
      case "measured":
        this.#measured(event);
        return;
      case "counted":
        this.#switchOff();
        this.minutes += minutes.operation * event.of;
        return;
      case "did":
        this.#switchOff();
        this.#unproved = true;
        return;
      default:
        return;
    }
  }

  /** All covers back on, at the end. */
  closeUp(): void {
    for (const id of [...this.#open]) this.#close(id);
  }

  #measured({ set, readings }: Measured): void {
    const { minutes } = this.#shop;
    const live = set.state.kind === "live";
    const atPoints = readings.some(({ from, measure }) => from !== undefined && measure === undefined);
    if (live) {
      if (atPoints) {
        this.#switchOff();
        this.minutes += minutes.clip + minutes.proveDead;
      }
      this.#run(0);
    } else if (atPoints) this.#switchOff();
    for (const plug of set.pulled) if (!this.#pulled.has(plug)) this.minutes += minutes.pullConnector;
    for (const plug of set.pulled) this.#pulled.add(plug);
    this.minutes += minutes.freePart * set.freed.length;
    for (const { quantity, from, to, measure } of readings) {
      if (measure !== undefined) {
        const cause = this.#machine.causes.find(({ id }) => id === measure.cause);
        this.minutes += cause?.measures.find(({ id }) => id === measure.id)?.minutes ?? minutes.reading;
        continue;
      }
      const inHand = `${set.meter}/${quantity}`;
      if (inHand !== this.#instrument) this.minutes += minutes.changeInstrument;
      this.#instrument = inHand;
      this.minutes += minutes.reading;
      if (live) this.live[this.#classOf([from, to])]++;
    }
    if (live && atPoints) this.#switchOff();
  }

  #classOf(ends: readonly (string | undefined)[]): "closed" | "clipped" | "handheld" {
    const points = this.#machine.points.filter(({ id }) => ends.includes(id));
    if (points.length === 0) return "closed";
    return points.every((point) => point.live === "clipped") ? "clipped" : "handheld";
  }

  #openUp(id: string): void {
    for (const group of accessChain(id, this.#groups)) {
      if (this.#open.has(group.id)) continue;
      this.#switchOff();
      if (this.#position !== undefined && this.#position !== group.position) {
        this.minutes += this.#shop.minutes.changePosition;
      }
      this.#position = group.position;
      this.minutes += group.openMinutes;
      this.#open.add(group.id);
    }
  }

  #close(id: string): void {
    if (!this.#open.delete(id)) return;
    this.minutes += this.#groups.get(id)?.closeMinutes ?? 0;
  }

  #switchOn(): void {
    if (!this.#energised) this.minutes += this.#shop.minutes.energise;
    this.#energised = true;
  }

  #switchOff(): void {
    if (this.#energised) this.minutes += PLUG_OUT_MINUTES;
    this.#energised = false;
    this.#ran = undefined;
  }

  /** Lets it run until so many minutes into the programme; what runs already is not started again. */
  #run(wait: number): void {
    this.#switchOn();
    if (this.#ran === undefined) {
      this.minutes += this.#shop.minutes.runStep;
      this.#ran = 0;
    }
    this.minutes += Math.max(0, wait - this.#ran);
    this.#ran = Math.max(wait, this.#ran);
  }

  #waitFor(sign: string): number {
    const rule = this.#machine.signs.find(({ id }) => id === sign);
    return rule === undefined ? 0 : waitFor(rule);
  }
}
