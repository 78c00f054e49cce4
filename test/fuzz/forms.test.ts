import { describe, expect, test } from "vitest";
import type { Checked, Issue } from "../../src/core/issue/index.ts";
import { foldJob, knownDifferences, readJob } from "../../src/core/ledger/index.ts";
import { readMeter } from "../../src/core/meter/index.ts";
import { instantiate, readKind } from "../../src/core/part/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { openRunner } from "../../src/core/run/index.ts";
import { assemble, checkSheet, combinations, readHouse, readSheet } from "../../src/core/sheet/index.ts";
import { caseOn } from "../../src/core/suspect/index.ts";
import { textsIn, writtenFiles } from "../house/forms.ts";
import { shippedLibrary, shippedMachine } from "../machines/shipped.ts";
import { fuzz } from "./run-fuzz.ts";

const library = shippedLibrary();
const files = writtenFiles();

/** The reasons of a refusal; `undefined` when it was taken. */
function reasons(checked: Checked<unknown>): readonly Issue[] | undefined {
  return checked.ok ? undefined : checked.issues;
}

describe("mutated files are read, or refused with a code, what was found and what was expected; never thrown at", () => {
  test("1,200 part kinds; those that are taken can be used with their defaults", () => {
    const { taken, refused } = fuzz(files.kind, 1200, 1, (text, file) => {
      const kind = readKind(text, file);
      if (kind.ok) instantiate(kind.value, new Map(), { at: [] });
      return reasons(kind);
    });
    expect(Math.min(taken, refused)).toBeGreaterThan(100);
  });

  test("200 wiring sheets; those that are taken are assembled, and the good machine of some is run", () => {
    let ran = 0;
    const { taken, refused } = fuzz(files.sheet, 200, 2, (text, file, round) => {
      const sheet = readSheet(text, file, library);
      if (!sheet.ok) return sheet.issues;
      const allowed = combinations(sheet.value, new Map());
      const one = allowed[round % Math.max(1, allowed.length)];
      if (one === undefined) return undefined;
      const machine = assemble(sheet.value, library, one.choice);
      if (!machine.ok) return machine.issues;
      if (round % 4 === 0) ran += openRunner(machine.value).healthy.pictures.size > 0 ? 1 : 0;
      if (round % 40 === 0 && allowed.length < 20) checkSheet(sheet.value, library);
      return undefined;
    });
    expect(Math.min(taken, refused, 10 * ran)).toBeGreaterThan(20);
  });

  test("150 house supplies, 300 meters, 300 cost files", () => {
    fuzz(textsIn("data/houses"), 150, 3, (text, file) => {
      const house = readHouse(text, file);
      if (!house.ok) return house.issues;
      const sheet = readSheet(branchOn(house.value.name), "branch.yaml", {
        ...library,
        houses: new Map([[house.value.name, house.value]]),
      });
      if (!sheet.ok) return sheet.issues;
      return reasons(
        assemble(sheet.value, { ...library, houses: new Map([[house.value.name, house.value]]) }, new Map()),
      );
    });
    fuzz(textsIn("data/meters"), 300, 4, (text, file) => reasons(readMeter(text, file)));
    fuzz(textsIn("data/costs"), 300, 5, (text, file) => reasons(readShop(text, "shop", file)));
  });
});

function branchOn(house: string): string {
  return JSON.stringify({
    format: "faultwright-sheet/1",
    sheet: "branch",
    supply: { house, class: "I" },
    branch: ["switch", "heater 2000 W"],
  });
}

describe("mutated jobs", () => {
  const sheet = readSheet(files.sheet.get("data/sheets/tumble-dryer.yaml") ?? "", "tumble-dryer.yaml", library);
  const machine = shippedMachine("tumble-dryer", { control: "board with two heater poles", air: "vented" });
  const opened = caseOn([{ machine, weight: 1 }]);
  const shop = readShop([...textsIn("data/costs").values()][0] ?? "", "demo-shop");
  const meters = new Map(
    [...textsIn("data/meters")].flatMap(([file, text]) => {
      const meter = readMeter(text, file);
      return meter.ok ? [[meter.value.id, meter.value] as const] : [];
    }),
  );

  test("of 1,000 files none is thrown at, all that are taken are folded, and odds of 25 make 1", () => {
    if (!sheet.ok || !shop.ok) throw new Error("the shipped files are not read");
    const chosen = combinations(
      sheet.value,
      new Map([
        ["control", "board with two heater poles"],
        ["air", "vented"],
      ]),
    )[0];
    let judged = 0;
    const sums: number[] = [];
    fuzz(files.job, 1000, 6, (text, file, round) => {
      const job = readJob(text, file);
      if (!job.ok) return job.issues;
      const state = foldJob(job.value, [machine], shop.value, meters, file);
      if (round % 10 === 0 && chosen !== undefined)
        assemble(sheet.value, library, chosen.choice, knownDifferences(job.value));
      if (!state.ok) return state.issues;
      if (judged < 25 && state.value.observations.length > 0) {
        judged++;
        const belief = opened.update(state.value.observations.map(({ observation }) => observation));
        sums.push(belief.logPosterior.reduce((sum, log) => sum + Math.exp(log), 0));
        const single = [...belief.parts.map(({ p }) => p), belief.nothingWrong, belief.notOnThisSheet];
        expect(
          single.every((p) => p >= 0 && p <= 1 + 1e-9),
          file,
        ).toBe(true);
      }
      return undefined;
    });
    expect(judged).toBe(25);
    for (const sum of sums) expect(sum).toBeCloseTo(1, 9);
  });
});
