// A machine without a sheet is its branch, part after part: the search halves it under its cover.
import { describe, expect, it } from "vitest";
import { planOf } from "../../src/core/ledger/index.ts";
import { workedJob } from "./jobs.ts";

const job = `format: faultwright-job/1
job: B-1
branch: [plug, cord, switch, cutout, heater 2kW, relay]
shop: demo-shop
complaint: "does not heat"
events:
  - told: {works: "no"}
  - measured: {from: plug.L, to: plug.PE, shows: OL}
  - looked: {at: relay, found: good}
`;

describe("a branch that does not work, nothing to be seen from outside", () => {
  it("is opened and read part after part, and its heater and its cut-out each have an outcome of their own", () => {
    const [next] = planOf(workedJob(job), "machine").steps;
    expect(next?.id).toBe("inside:cover");
    expect(next?.setUp.map((act) => act.do)).toEqual(["open", "prove dead"]);
    const mended = next?.outcomes.flatMap(({ parts }) =>
      parts[0] !== undefined && parts[0].p > 0.9 ? parts[0].id : [],
    );
    expect(mended).toEqual(expect.arrayContaining(["heater", "cut-out"]));
  });
});
