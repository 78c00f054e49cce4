import type { Solver } from "../circuit/index.ts";
import type { Moment } from "../part/index.ts";
import type { Live } from "./live.ts";

/** What flows at the plug on one line core. */
export interface AtPlug {
  readonly volts: number;
  readonly amps: number;
  readonly watts: number;
}

/** One solved moment of one machine, to be read: conditions by `live`, meters and derivatives by what stands here. */
export class Solved {
  /** What conditions and formulas look at. */
  readonly live: Moment;
  readonly ac: Solver;
  readonly dc: Solver;
  readonly #live: Live;

  constructor(live: Live, power: { ac: Solver; dc: Solver }) {
    this.live = live;
    this.#live = live;
    this.ac = power.ac;
    this.dc = power.dc;
  }

  /** Can it still be read? Not once its solution had to make room for another. */
  get isGood(): boolean {
    return this.#live.isSolved;
  }

  /** What a voltmeter of `inputOhms` shows between two nodes, volts; `floats` when nothing ties it to a source. */
  metered(a: number, b: number, inputOhms: number, kind?: "~" | "="): { volts: number; floats: boolean } {
    const ac = kind === "=" ? undefined : this.ac.metered(a, b, inputOhms);
    const dc = kind === "~" ? undefined : this.dc.metered(a, b, inputOhms);
    return {
      volts: Math.hypot(ac?.volts ?? 0, dc?.volts ?? 0),
      floats: (ac?.floats ?? true) && (dc?.floats ?? true),
    };
  }

  /**
   * Volts, amperes and watts of each line core at the plug, against its neutral; where there is none, against the first
   * line, and the first against the last.
   */
  atPlug(): AtPlug[] {
    const { machine } = this.#live.network;
    const cores = machine.plugElements.filter(({ line }) => line >= 0);
    return cores.map(({ line, neutral }, index) => {
      const { a } = machine.elements[line];
      const first = machine.elements[cores[0].line].a;
      const last = machine.elements[cores[cores.length - 1].line].a;
      const back = neutral >= 0 ? machine.elements[neutral].a : index === 0 ? last : first;
      const volts = this.ac.volts(a, back);
      const { re, im } = this.ac.amps(line);
      // Against itself the first line gives nothing: the others hold all the watts.
      const counted = neutral >= 0 || index > 0;
      return {
        volts: Math.hypot(volts.re, volts.im),
        amps: Math.hypot(re, im),
        watts: counted ? volts.re * re + volts.im * im : 0,
      };
    });
  }

  /** Watts at the plug, all line cores together. */
  plugWatts(): number {
    return Math.abs(this.atPlug().reduce((sum, core) => sum + core.watts, 0));
  }

  /** What a leakage clamp round line and neutral shows, amperes: their vector sum over all cores but earth. */
  leakageAmps(): number {
    const { machine } = this.#live.network;
    const cores = new Set(
      machine.plugElements.flatMap(({ line, neutral }) => [line, neutral]).filter((core) => core >= 0),
    );
    let re = 0;
    let im = 0;
    for (const core of cores) {
      const current = this.ac.amps(core);
      re += current.re;
      im += current.im;
    }
    return Math.hypot(re, im);
  }
}
