// What the customer's own words already answer is not asked: a dark display shows no message.
import { expect, it } from "vitest";
import { planOf } from "../../src/core/ledger/index.ts";
import { workedJob } from "./jobs.ts";

const LESS = { pairsAtMost: 200, candidatesAtMost: 1 };
const job = (told: string) => `format: faultwright-job/1
job: M-1
sheet: tumble-dryer
shop: demo-shop
complaint: "invented"
events:
  - told: {drum turns: "no", ${told}}
`;
const asked = (told: string): readonly string[] =>
  planOf(workedJob(job(told), LESS), "telephone").steps.map(({ id }) => id);

it.each([
  ['lights up: "yes"', true],
  ['lights up: "no"', false],
  ["trips the RCD: plugged-in", false],
])("told %s: a message is asked about: %s", (told, isAsked) => {
  const steps = asked(told);
  expect(steps.some((id) => id.startsWith("ask:"))).toBe(true);
  expect(steps.includes("ask:message")).toBe(isAsked);
});
