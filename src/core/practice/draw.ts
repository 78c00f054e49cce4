import type { Random } from "../chance/index.ts";
import type { Shop } from "../remedy/index.ts";
import type { SignRule } from "../sheet/index.ts";
import { drawMachine, type Errors, HiddenMachine, type MachineType, Truth } from "../trial/index.ts";

/** A machine drawn for a learner, and the signs that made somebody call. */
export interface CalledFor {
  readonly truth: Truth;
  readonly told: readonly string[];
}

/** Machines that are drawn before giving up on one that anybody would call about. */
const MOST_DRAWS = 200;
/** Things a caller tells unasked. */
const TOLD = 2;

/**
 * Draws a machine by the sheet's own rates, until one is met whose caller would say that something is not as it should be.
 *
 * @param among  only faults of this part or cause
 * @returns      undefined: no such machine was met
 */
export function drawCalledFor(
  type: MachineType,
  shop: Shop,
  random: Random,
  errors: Errors,
  among?: string,
): CalledFor | undefined {
  const { desk, truth: the } = type;
  for (let draws = 0; draws < MOST_DRAWS; draws++) {
    const own = random.fork(`draw ${draws}`);
    const drawn = drawMachine(the, own.fork("machine"), {
      spread: errors.meters,
      ...(among === undefined
        ? {}
        : {
            among: ({ modes }) =>
              modes.length === 1 &&
              (desk.machine.parts[modes[0].part] ?? desk.machine.causes[modes[0].cause])?.id === among,
          }),
    });
    const truth = new Truth(drawn, own.fork("answers"), errors, shop);
    const hidden = new HiddenMachine(truth);
    const told = hidden
      .complaints()
      .filter(({ id }) => {
        const said = hidden.answer(id, "told", "0");
        return said !== undefined && said !== desk.goodAnswers.get(id);
      })
      .sort((a, b) => weight(a) - weight(b))
      .slice(0, TOLD)
      .map(({ id }) => id);
    if (told.length > 0) return { truth, told };
  }
  return undefined;
}

/** What the machine does or does not do is told before what else was noticed about it. */
function weight(sign: SignRule): number {
  return sign.rule.kind === "table" ? 1 : 0;
}
