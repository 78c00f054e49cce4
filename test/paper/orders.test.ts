import { expect, test } from "vitest";
import { accept } from "../../src/core/issue/index.ts";
import type { LedgerEvent } from "../../src/core/ledger/index.ts";
import type { Facts } from "../../src/shell/web/engine/facts.ts";
import { answer } from "../../src/shell/web/engine/papers-desk.ts";
import type { PapersAnswers } from "../../src/shell/web/engine/papers-protocol.ts";
import { workedBranch } from "../machines/branch-job.ts";

const event = (id: string, kind: string, body: unknown): LedgerEvent => ({
  id,
  job: "shelf",
  time: "2026-03-04T10:00:00Z",
  device: "phone",
  person: "",
  kind,
  body,
});
const FITTED = "  - did: {remedy: fit a new heater, on: heater, worked: yes}\n";
const stock = [event("1", "stocked", { part: "heater", says: "heater 2 kW", where: "van", by: 2 })];

/** What the page is answered: the jobs' repairs are the events `5`, `6` ... of their ledgers. */
async function asked(stock: readonly LedgerEvent[], events: string, standing: readonly string[]) {
  const jobs = [{ text: events, repairs: standing }];
  const said = await answer(
    { do: "orders", jobs, stock, standing, loose: [] },
    (text) => accept(workedBranch(text)),
    {} as Facts,
  );
  const orders = said as PapersAnswers["orders"];
  if (!orders.ok) throw new Error(orders.issues.join());
  return { uses: orders.uses, counts: orders.view.items.map(({ count }) => count) };
}

test("a repair uses a heater up: it is told to be written down, and told no more once it is", async () => {
  const first = await asked(stock, FITTED, ["5"]);
  expect(first).toEqual({ uses: [{ repair: "5", job: "1", takes: { part: "heater", state: "new" } }], counts: [1] });
  const written = [...stock, event("7", "used", first.uses[0])];
  expect(await asked(written, FITTED, ["5"])).toEqual({ uses: [], counts: [1] });
  // Taken back, it took nothing.
  expect(await asked(written, "", [])).toEqual({ uses: [], counts: [2] });
});

test("a part that was ordered for the job and arrived leaves the shelf as it is", async () => {
  const bought = `  - ordered: heater\n  - arrived: heater\n${FITTED}`;
  expect(await asked(stock, bought, ["5"])).toEqual({ uses: [{ repair: "5", job: "1" }], counts: [2] });
});
