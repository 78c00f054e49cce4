import type { Moment } from "../part/index.ts";

/** One member of a picture, solved again when it is called for. */
export interface Weighed {
  readonly weight: number;
  readonly solve: () => Moment;
}

/**
 * A machine that hunts, as a person sees it: every volt, ampere, watt and variable is the mean over the members of the
 * hunt, by their share of time. A state is that of the longest member.
 */
export class MeanMoment implements Moment {
  readonly #members: readonly Weighed[];
  readonly #longest: Weighed;

  constructor(members: readonly Weighed[]) {
    this.#members = members;
    this.#longest = members.reduce((longest, member) => (member.weight > longest.weight ? member : longest));
  }

  #mean(of: (moment: Moment) => number): number {
    let sum = 0;
    for (const member of this.#members) sum += member.weight * of(member.solve());
    return sum;
  }

  volts(element: number, kind?: "~" | "="): number {
    return this.#mean((moment) => moment.volts(element, kind));
  }

  amps(element: number, kind?: "~" | "="): number {
    return this.#mean((moment) => moment.amps(element, kind));
  }

  watts(element: number): number {
    return this.#mean((moment) => moment.watts(element));
  }

  between(a: number, b: number, kind?: "~" | "="): number {
    return this.#mean((moment) => moment.between(a, b, kind));
  }

  cross(elementA: number, elementB: number): number {
    return this.#mean((moment) => moment.cross(elementA, elementB));
  }

  apart(elementA: number, elementB: number): number {
    return this.#mean((moment) => moment.apart(elementA, elementB));
  }

  state(set: number): number {
    return this.#longest.solve().state(set);
  }

  variable(index: number): number {
    return this.#mean((moment) => moment.variable(index));
  }

  parameter(index: number): number {
    return this.#longest.solve().parameter(index);
  }

  good(index: number): number {
    return this.#longest.solve().good(index);
  }
}
