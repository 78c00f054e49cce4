import { readdirSync, readFileSync } from "node:fs";
import { seeded } from "../../src/core/chance/index.ts";
import { readMeter } from "../../src/core/meter/index.ts";
import { readShop } from "../../src/core/remedy/index.ts";
import { combinations } from "../../src/core/sheet/index.ts";
import { type MachineType, type TrialAsk, typeOf } from "../../src/core/trial/index.ts";
import { readShipped } from "../rows/dryer.ts";

const data = new URL("../../data/", import.meta.url);

function must<T>(checked: { readonly ok: true; readonly value: T } | { readonly ok: false }): T {
  if (!checked.ok) throw new Error("a shipped file does not read");
  return checked.value;
}

const meters = new Map(
  readdirSync(new URL("meters/", data)).map((file) => {
    const id = file.replace(".yaml", "");
    return [id, must(readMeter(readFileSync(new URL(`meters/${file}`, data), "utf8"), file))] as const;
  }),
);
const shop = must(readShop(readFileSync(new URL("costs/demo-shop.yaml", data), "utf8"), "demo-shop"));

/** What is asked of a simulation of a shipped family, in the demonstration shop. */
export function shippedTrial(name: string, more: Partial<TrialAsk> = {}): TrialAsk {
  return { ...readShipped(name), shop, meters, seed: "1", strategies: ["swap", "test"], ...more };
}

/** Machines of the commonest type of a shipped family. */
export function commonestType(ask: TrialAsk): MachineType {
  const types = combinations(ask.sheet);
  const commonest = types.reduce((best, next) => (next.weight > best.weight ? next : best));
  return typeOf(ask, commonest.choice, seeded("sheet"));
}
