import { applyFunction, type Estimate } from "../quantity/index.ts";

/** What a contact does under the current of its load. */
export interface ContactAtLoad {
  readonly ohms: Estimate;
  /** Lost as heat in the contact. */
  readonly watts: Estimate;
  /** Drop from one side of the contact to the other. */
  readonly volts: Estimate;
}

/** From ohms measured without load: U = I·R, P = I²·R. */
export function contactOfOhms(ohms: Estimate, amperes: Estimate): ContactAtLoad {
  const [r, i] = [ohms.value, amperes.value];
  return {
    ohms,
    watts: applyFunction(i * i * r, [
      [ohms, i * i],
      [amperes, 2 * i * r],
    ]),
    volts: applyFunction(i * r, [
      [ohms, i],
      [amperes, r],
    ]),
  };
}

/** From the drop measured under load: R = U/I, P = U·I. The better way: no meter's leads count, and the contact works as it does in life. */
export function contactOfDrop(volts: Estimate, amperes: Estimate): ContactAtLoad {
  const [u, i] = [volts.value, amperes.value];
  return {
    ohms: applyFunction(u / i, [
      [volts, 1 / i],
      [amperes, -u / (i * i)],
    ]),
    watts: applyFunction(u * i, [
      [volts, i],
      [amperes, u],
    ]),
    volts,
  };
}
