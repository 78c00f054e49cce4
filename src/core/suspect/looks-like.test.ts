import { describe, expect, test } from "vitest";
import { plainMode, tableForesight } from "../../../test/machines/table-foresight.ts";
import type { Meter } from "../meter/index.ts";
import type { Observation } from "../sign/index.ts";
import { afterRemedy } from "./after-remedy.ts";
import { caseFrom } from "./open-case.ts";

const meter: Meter = {
  id: "test",
  says: "test meter",
  ranges: [{ quantity: "ohms", top: 600, resolution: 0.1, shareOfReading: 0.009, counts: 2 }],
  inputOhms: 1e7,
  leadOhms: { lo: 0.1, hi: 0.3 },
  nulledOhms: 0.05,
  source: "invented",
};

/** Ten parts in ten paths; a path reads 26 Ω, and open where its part is at fault. */
const names = Array.from({ length: 10 }, (_, n) => `part${n}`);
const foresight = tableForesight({
  modes: names.map((name, n) => plainMode(n, name)),
  shows: (id, fault) =>
    fault.some(({ mode }) => mode.id === `${id}/open`)
      ? { mean: Number.POSITIVE_INFINITY, sigma: 0 }
      : { mean: 26, sigma: 0.5 },
});

function reads(id: string, good: boolean): Observation {
  const shown = good ? ({ kind: "value", value: 26 } as const) : ({ kind: "over limit" } as const);
  const state = { kind: "dead", pulled: [], freed: [], hands: new Map() } as const;
  return {
    kind: "reading",
    probe: { id, quantity: "ohms", from: "a", to: "b", state },
    meter,
    leads: "nulled",
    shown,
  };
}

describe("something that the sheet does not know", () => {
  test("stays near 1 in 50 beside a part that reads bad, and is near 1 in 5 once a new one reads the same", () => {
    const the = caseFrom([{ foresight, weight: 1 }]);
    const found = [...names.slice(1).map((name) => reads(name, true)), reads("part0", false)];
    const belief = the.update(found);
    expect(belief.notOnThisSheet).toBeGreaterThan(0.01);
    expect(belief.notOnThisSheet).toBeLessThan(0.03);
    const after = afterRemedy(the, belief, { modes: new Set(["part0/open"]), cured: 0.95 });
    expect(after.update([reads("part0", false)]).notOnThisSheet).toBeCloseTo(0.2, 1);
  });
});
