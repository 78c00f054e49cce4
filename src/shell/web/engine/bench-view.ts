import { benchTestOf, celsiusOf, gradeOf, ratingsOf, roundsOf } from "../../../core/bench/index.ts";
import { accept, type Checked, refuse } from "../../../core/issue/index.ts";
import { type LedgerEvent, recordOf } from "../../../core/ledger/index.ts";
import { instantiate } from "../../../core/part/index.ts";
import { cautionsFor, instrumentFor } from "../../../core/plan/index.ts";
import { ratingSpoken } from "../../words/rating-names.ts";
import type { Facts } from "./facts.ts";
import type { BenchView, KindOffer } from "./protocol.ts";

/** Kinds that have a test of their own, each with the ratings it asks for. */
export function benchKinds({ library }: Facts): readonly KindOffer[] {
  const kinds = [...library.kinds.values()].filter((kind) => {
    const instance = instantiate(kind, new Map(), { at: [] });
    return instance.ok && instance.value.bench.length > 0;
  });
  return kinds.map(({ id, says, asks }) => {
    const isShared = kinds.some((other) => other.id !== id && other.says === says);
    return {
      id,
      says: isShared ? `${says} (${id.replaceAll("-", " ")})` : says,
      ratings: [...asks].flatMap(([name, asked]) =>
        asked.is === "amount" && asked.otherwise !== undefined ? [ratingSpoken(name, asked.otherwise)] : [],
      ),
    };
  });
}

/** A loose part's test as its events tell it, or what is wrong with its ratings. */
export function benchView(events: readonly LedgerEvent[], facts: Facts): Checked<BenchView> {
  const record = recordOf(events);
  const part = record?.head.part;
  const kind = part === undefined ? undefined : facts.library.kinds.get(part.kind);
  if (record === undefined || part === undefined || kind === undefined) {
    const found = `"${part?.kind ?? ""}"`;
    return refuse({ code: "bench.kind", severity: "error", at: [], found, expected: "a kind of part that ships" });
  }
  const ratings = new Map(Object.entries(part.ratings).map(([name, text]) => [name, { text, line: 1 }] as const));
  const instance = instantiate(kind, ratings, { at: ["ratings"] });
  if (!instance.ok) return instance;
  const testAt = (celsius: number) => benchTestOf(instance.value, celsius);
  const test = testAt(celsiusOf(record));
  const rounds = roundsOf(record, testAt, facts.meters);
  const meters = test.steps.flatMap(({ index, reading }) => {
    if (reading === undefined) return [];
    const { id, says } = instrumentFor(reading.quantity, [], facts.meters);
    return [[index, { id, says }] as const];
  });
  return accept({
    says: instance.value.says,
    ratings: [...ratingsOf(test, instance.value)].map(([name, rated]) => ratingSpoken(name, rated)),
    test,
    cautions: cautionsFor([], test.hazards, [], []).flatMap(({ lines }) => lines),
    meters: Object.fromEntries(meters),
    rounds,
    grade: gradeOf(test, rounds),
  });
}
