import { expect, it } from "vitest";
import { shippedLibrary } from "../../../test/machines/shipped.ts";
import { handheld } from "../../../test/machines/shipped-case.ts";
import type { Checked } from "../issue/index.ts";
import { usualProbes } from "../predict/index.ts";
import { branchSheet } from "../sheet/index.ts";
import type { Observation } from "../sign/index.ts";
import { KeptForesights } from "./kept-foresights.ts";
import { openCase, openingCase } from "./open-case.ts";

function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues));
  return checked.value;
}

const library = shippedLibrary();
const sheet = must(branchSheet("switch,cutout,heater:2kW,relay", library));

it("gives one machine's foresight to every case on it, whatever its age; another one to a machine that differs", () => {
  const kept = new KeptForesights();
  const young = must(openCase({ sheet, library, kept, ageYears: 1 }));
  const old = must(openCase({ sheet, library, kept, ageYears: 12 }));
  const other = must(openCase({ sheet, library, kept, differences: ["heater.P is 1000 W"] }));
  expect(old.foresights[0]).toBe(young.foresights[0]);
  expect(other.foresights[0]).not.toBe(young.foresights[0]);
  expect(must(openCase({ sheet, library })).foresights[0]).not.toBe(young.foresights[0]);
});

it("leaves the odds to the last digit as they are when nothing is kept, and when all was foreseen in pieces", () => {
  const kept = new KeptForesights();
  const plain = must(openCase({ sheet, library }));
  const [probe] = usualProbes(plain.candidates[0].machine).map((usual) => usual.probe);
  const seen: Observation[] = [
    { kind: "reading", probe, meter: handheld(), leads: "nulled", shown: { kind: "over limit" } },
  ];
  const belief = plain.update(seen);
  must(openCase({ sheet, library, kept, ageYears: 12 })).update(seen);
  expect(must(openCase({ sheet, library, kept })).update(seen)).toEqual(belief);

  const opening = openingCase({ sheet, library });
  let pieces = 0;
  let opened = opening.next();
  for (; opened.done !== true; opened = opening.next()) pieces++;
  const the = must(opened.value);
  for (const _ of the.foreseeAhead(seen)) pieces++;
  expect(pieces).toBeGreaterThan(the.foresights[0].atoms.length);
  expect(the.update(seen)).toEqual(belief);
});
