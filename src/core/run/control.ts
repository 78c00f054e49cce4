import type { Step } from "../sheet/index.ts";
import type { Live } from "./live.ts";

/** What drives the outputs: a step of the programme under its guards, one commanded output, or nothing. */
export class Control {
  step: Step | undefined;
  /** Output commanded in service test, or -1. */
  commanded = -1;
  /** Outputs stay as they are: a step is being entered and has not been allowed yet. */
  frozen = false;
  /** The programme was lost and does not come back by itself. */
  stopped = false;
  /** It gave up, and will let the water out where the programme would. */
  drains = false;
  /** The control was seen to live. */
  woke = false;
  readonly said: { readonly step: string; readonly says: string }[] = [];

  reset(): void {
    this.step = undefined;
    this.commanded = -1;
    this.frozen = false;
    this.stopped = false;
    this.drains = false;
    this.woke = false;
    this.said.length = 0;
  }

  say(step: string, says: string): void {
    if (!this.said.some((before) => before.says === says)) this.said.push({ step, says });
  }

  /** Is the control itself working? */
  lives(live: Live): boolean {
    return this.step?.runBy === undefined || live.holds(this.step.runBy);
  }

  /** Why the programme stops at this moment: what it says, "" for a control that died, or undefined. */
  stopsFor(live: Live): string | undefined {
    if (this.step === undefined || this.stopped || this.frozen || this.commanded >= 0) return undefined;
    if (!this.lives(live)) return this.woke ? "" : undefined;
    return this.step.needs.find((need) => !live.holds(need.when))?.says;
  }

  /** What an output should be, as the control sees the last solution: 1 or 0. */
  wants(output: number, live: Live): number {
    if (this.frozen) return live.variables[output];
    if (this.commanded >= 0) return output === this.commanded ? 1 : 0;
    if (this.step === undefined || this.stopped || !this.lives(live)) return 0;
    for (const drive of this.step.drives) {
      if (drive.output === output) return drive.guard === undefined || live.holds(drive.guard) ? 1 : 0;
    }
    return 0;
  }
}
