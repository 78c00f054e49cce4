import { readFileSync } from "node:fs";
import type { Checked } from "../../src/core/issue/index.ts";
import { sentence } from "../../src/core/issue/index.ts";
import { readJob, type WorkedJob, workOut } from "../../src/core/ledger/index.ts";
import { readMeter } from "../../src/core/meter/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { branchSheet } from "../../src/core/sheet/index.ts";
import { shippedLibrary } from "./shipped.ts";

const data = new URL("../../data/", import.meta.url);
const text = (path: string): string => readFileSync(new URL(path, data), "utf8");

export function must<T>(checked: Checked<T>): T {
  if (!checked.ok) throw new Error(checked.issues.map(sentence).join("\n"));
  return checked.value;
}

const library = shippedLibrary();
const METERS = ["handheld-6000", "plug-in", "insulation-tester", "leakage-clamp", "low-impedance", "capacitance"];
const KINDS = "switch,cutout,heater:2kW,relay";
const ground = {
  library,
  meters: new Map(METERS.map((id) => [id, must(readMeter(text(`meters/${id}.yaml`), id))])),
  shop: must(readShop(text("costs/demo-shop.yaml"), "demo-shop")),
  sheet: must(branchSheet(KINDS, library)),
};

/** A job on a small branch, quick to work out, with these events. */
export const branchJob = (events: string): string =>
  `format: faultwright-job/1\njob: 1\nbranch: [${KINDS.replace("heater:2kW", '"heater:2kW"')}]\nevents:\n${events}`;

/** That job worked out as the command does. */
export function workedBranch(events: string): WorkedJob {
  return must(workOut(must(readJob(branchJob(events))), ground));
}
