import { modesOf } from "../../../core/fault/index.ts";
import { Predictor } from "../../../core/predict/index.ts";
import type { Machine, Sheet } from "../../../core/sheet/index.ts";
import { type Branch, branchesOf } from "../../../core/trace/index.ts";
import { goodValues, goodValuesOf, type PlaceValues } from "../../words/good-values.ts";
import { sourceInWords } from "../../words/rating.ts";
import { ratingNamed } from "../../words/rating-names.ts";
import type { Family } from "./protocol.ts";

/** One machine of a wiring sheet, as the screen shows it: nothing but words. */
export interface SheetView {
  readonly title: string;
  /** Where the sheet as a whole stands. */
  readonly source?: string;
  readonly supply: string;
  readonly slots: Family["slots"];
  /** Slot → variant, as chosen or as the commonest machine has it. */
  readonly choice: Readonly<Record<string, string>>;
  readonly groups: readonly {
    readonly says: string;
    readonly parts: readonly {
      readonly id: string;
      readonly says: string;
      readonly kind: string;
      readonly ratings: readonly { readonly name: string; readonly value: string; readonly source: string }[];
      readonly source: string;
    }[];
  }[];
  readonly plugs: readonly {
    readonly id: string;
    readonly says: string;
    readonly pins: readonly { readonly pin: string; readonly colour: string }[];
  }[];
  /** Its circuit. */
  readonly branches: readonly Branch[];
  readonly ways: number;
  readonly signs: readonly string[];
}

/** Parts of one machine by the cover they sit behind, its connectors, and what can be noticed of it. */
export function sheetView(machine: Machine, sheet: Sheet, slots: Family["slots"]): SheetView {
  const covers = new Map(machine.access.map(({ id, says }) => [id, says]));
  const groups = new Map<string, SheetView["groups"][number]["parts"][number][]>();
  for (const { id, says, joint, access, instance } of machine.parts) {
    if (joint !== undefined) continue;
    const cover = access === undefined ? "" : (covers.get(access) ?? access);
    const kind = instance.source === undefined ? "" : sourceInWords(instance.source);
    const ratings = [...instance.ratings].map(([name, rated]) => ({
      ...ratingNamed(name, rated),
      source: rated.source === undefined ? kind : sourceInWords(rated.source),
    }));
    groups.set(cover, [...(groups.get(cover) ?? []), { id, says, kind: instance.says, ratings, source: kind }]);
  }
  const { house, class: protection, volts, hertz } = machine.supply;
  return {
    title: machine.title,
    ...(sheet.source === undefined ? {} : { source: sourceInWords(sheet.source) }),
    supply: `${house}, ${Math.round(volts)} V ${hertz} Hz, class ${protection}`,
    slots,
    choice: Object.fromEntries(machine.choice),
    groups: [...groups].map(([says, parts]) => ({ says, parts })),
    plugs: machine.plugs.map(({ id, ways, pinOneSays, pins }) => ({
      id,
      says: `${ways} ways, pin 1 ${pinOneSays}`,
      pins: pins.map(({ pin, colour = "" }) => ({ pin, colour })),
    })),
    branches: branchesOf(machine),
    ways: modesOf(machine).length,
    signs: machine.signs.map(({ ask }) => ask),
  };
}

/** What a good machine shows place by place. */
export function valuesOf(machine: Machine): readonly PlaceValues[] {
  return goodValues(machine, goodValuesOf(new Predictor(machine, modesOf(machine))), false);
}
