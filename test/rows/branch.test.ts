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

const cold = job.slice(0, job.indexOf("  - told"));

it("asks what the machine does before anything is gone to, where nobody has said so", () => {
  const [next] = planOf(workedJob(`${cold}  - note: came at nine\n`), "machine").steps;
  expect(next?.id).toBe("ask:customer");
});

it("parts a relay from what commands it by volts over coil and contact, once ohms have told what they can", () => {
  const read = `  - told: {works: nothing}
  - opened: cover
  - isolated: two-pole tester
  - measured: {from: plug.L, to: plug.PE, shows: OL}
  - measured: {from: heater.common, to: plug.L, shows: 27}
  - measured: {from: heater.s1, to: relay.11, shows: 26.8}
  - measured: {from: cut-out.a, to: cut-out.b, freed: [cut-out], shows: 0.1}
  - measured: {from: relay.A1, to: relay.A2, shows: 402}
  - measured: {from: relay.14, to: plug.N, shows: 0.2}
`;
  const [next] = planOf(workedJob(cold + read), "machine").steps;
  expect(next?.id).toBe("at:relay/clipped/on");
  expect(next?.cautions.map(({ code }) => code)).toEqual(expect.arrayContaining(["clipped", "rcd-lead", "prove-dead"]));
  const dead = next?.outcomes.filter(({ parts }) => parts[0] !== undefined && parts[0].p > 0.8);
  expect(dead?.map(({ parts }) => parts[0]?.id)).toEqual(expect.arrayContaining(["relay", "relay-command"]));
});

it("asks of a pump whether it runs, since a jammed one takes current", () => {
  const pump = cold.replace(/branch: .*/, "branch: [plug, cord, switch, pump]");
  const [next] = planOf(workedJob(`${pump}  - told: {pump runs: "no", works: works}\n`), "machine").steps;
  const believed = next?.questions.flatMap(({ bands }) => bands.flatMap(({ faults }) => faults.map(({ id }) => id)));
  expect(believed).toContain("pump");
});
