import type { Expression } from "../part/index.ts";
import { type Build, elementValue } from "./build.ts";
import type { Formulas } from "./formulas.ts";
import type { ElementValue } from "./machine.ts";
import type { Names } from "./names.ts";

/** Values of elements and moves of states, now that every name is known. */
export function completeParts(build: Build, names: Names, formulas: Formulas): void {
  const nominals = Float64Array.from(build.parameters, ({ rated }) => rated.nominal);
  for (const part of build.parts) {
    const resolver = names.ofPart(part);
    const ratings = [...part.instance.ratings.keys()].flatMap(
      (name) => build.parameterIndex.get(`${part.id}.${name}`) ?? [],
    );
    const valueFor = (expression: Expression | undefined): ElementValue => {
      const evaluate =
        expression === undefined ? () => Number.POSITIVE_INFINITY : formulas.compile(expression, resolver);
      return elementValue(evaluate ?? (() => Number.NaN), expression === undefined ? [] : ratings, nominals);
    };
    part.instance.elements.forEach((rule, position) => {
      const index = part.elements[position];
      const element = index === undefined ? undefined : build.elements[index];
      if (index === undefined || element === undefined) return;
      const states = element.set < 0 ? undefined : build.stateSets[element.set]?.states;
      const { value } = rule;
      const values =
        "always" in value
          ? [valueFor(value.always)]
          : (states ?? []).map((state) => valueFor(value.byState.get(state)));
      build.elements[index] = { ...element, values };
    });
    part.instance.stateSets.forEach((rule, position) => {
      const index = part.stateSets[position];
      const set = index === undefined ? undefined : build.stateSets[index];
      if (index === undefined || set === undefined) return;
      const moves = rule.moves.flatMap((move) => {
        const when = formulas.compile(move.when, resolver);
        const from = move.from?.map((state) => set.states.indexOf(state));
        if (when === undefined) return [];
        const moved = { to: set.states.indexOf(move.to), when, takes: move.takes, permanent: move.permanent };
        return [from === undefined ? moved : { ...moved, from }];
      });
      build.stateSets[index] = { ...set, moves };
    });
  }
}
