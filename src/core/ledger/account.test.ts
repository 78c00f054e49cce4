import { describe, expect, test } from "vitest";
import { accountOf, type JobEvent, readJob, writtenEvents } from "./index.ts";

const HEAD = "format: faultwright-job/1\njob: 26-0101\nsheet: tumble-dryer\ncustomer: {authority: 150}\nevents:\n";

function read(events: readonly string[]) {
  return readJob(HEAD + events.map((event) => `  - ${event}\n`).join(""), "job.yaml");
}

function job(...events: string[]) {
  const checked = read(events);
  if (!checked.ok) throw new Error(JSON.stringify(checked.issues));
  return checked.value;
}

const HASH = "a".repeat(64);
const ALL = [
  'customer: {name: A. Sample, lines: [7 Mill Row], postcode: "00017", town: Ostermoor, country: DE, phone: "000"}',
  "payer: {name: Ostermoor Lettings, vat id: DE000000000, tax number: 12/3}",
  "fees: {call-out: 45, diagnosis: 39, who: the tenant, how: on the telephone}",
  "allowed: {amount: 250, who: the tenant, how: on the telephone}",
  "offered: [{choice: heater/new, says: a new heater, price: 190}, {choice: stop, says: leave it, price: 84}]",
  "accepted: {choice: heater/new, price: 180, signed: photo 4, who: the tenant}",
  "declined: {choice: control/assembly, signed: refused to sign}",
  "charged: {what: part, says: heater, amount: 80, quantity: 1, vat: {category: S, percent: 7}}",
  "charged: {what: discount, says: a neighbour, amount: -10}",
  `issued: {paper: invoice, number: F-0007, date: 2026-03-06, total: 180, hash: ${HASH}, content: "{}"}`,
  "issued: {paper: credit note, number: G-1, date: 2026-03-07, of: F-0007, total: -180}",
  "paid: {amount: 90, how: card, number: F-0007, date: 2026-03-06}",
  "ordered: {part: heater, says: heater 1200 W, price: 48, from: the wholesaler, due: 2026-03-06}",
  "arrived: heater",
];

describe("an account", () => {
  test("tells who is who, what was agreed, asked, paid and ordered", () => {
    const account = accountOf(job(...ALL));
    expect(account.customer).toMatchObject({ name: "A. Sample", postcode: "00017" });
    expect(account.payer).toMatchObject({ name: "Ostermoor Lettings", vatId: "DE000000000" });
    expect(account.fees).toMatchObject({ callOut: 45, diagnosis: 39, who: "the tenant" });
    expect(account.limit).toMatchObject({ amount: 250, who: "the tenant", event: "e4" });
    expect(account.offered.map(({ choice, price }) => [choice, price])).toEqual([
      ["heater/new", 190],
      ["stop", 84],
    ]);
    expect(account.accepted).toMatchObject({ choice: "heater/new", price: 180 });
    expect(account.charges.map(({ amount }) => amount)).toEqual([80, -10]);
    expect(account.issued.map(({ number }) => number)).toEqual(["F-0007", "G-1"]);
    expect(account.paid.map(({ amount }) => amount)).toEqual([90]);
    expect(account.ordered).toMatchObject([{ part: "heater", arrived: true }]);
  });

  test("holds to the limit of the head until somebody says another", () => {
    expect(accountOf(job("note: nothing yet")).limit?.amount).toBe(150);
    expect(accountOf(job("allowed: 90", "allowed: 200", "withdraws: 2")).limit?.amount).toBe(90);
  });

  test("forgets what was accepted when it, or all, is declined", () => {
    expect(accountOf(job("accepted: a", "declined: b")).accepted?.choice).toBe("a");
    expect(accountOf(job("accepted: a", "declined: a")).accepted).toBeUndefined();
    expect(accountOf(job("accepted: a", "declined: all")).accepted).toBeUndefined();
  });

  test("a payment is undone by a withdrawal; a paper that was handed over is not, and the way out is told", () => {
    const invoice = "issued: {paper: invoice, number: F-1, date: 2026-03-06}";
    const account = accountOf(job(invoice, "paid: 20", "withdraws: 2"));
    expect([account.issued.length, account.paid.length]).toEqual([1, 0]);
    for (const [paper, hint] of [
      [invoice, "Write a credit note."],
      [invoice.replace("invoice", "report"), "Issue it anew: the later one counts."],
    ] as const) {
      const checked = read([paper, "withdraws: 1"]);
      expect(checked.ok ? [] : checked.issues).toMatchObject([{ code: "job.issued", line: 7, hint }]);
    }
  });

  test("two of one part are ordered, one has arrived", () => {
    const { ordered } = accountOf(job("ordered: belt", "ordered: belt", "arrived: belt"));
    expect(ordered.map(({ arrived }) => arrived)).toEqual([true, false]);
  });
});

test.each(ALL)("%s is written as it is read", (event) => {
  const strip = ({ line: _line, ...rest }: JobEvent) => rest;
  const [first] = job(event).events;
  if (first === undefined) throw new Error("no event");
  const again = job(...writtenEvents(first).map(({ kind, body }) => JSON.stringify({ [kind]: body }))).events[0];
  expect(again === undefined ? undefined : strip(again)).toEqual(strip(first));
});

test.each([
  ["charged: {what: part, says: heater, amount: -5}", "job.charge"],
  ["charged: {what: discount, says: a friend, amount: 5}", "job.charge"],
  ["issued: {paper: invoice, number: 7, date: yesterday}", "job.date"],
  ["issued: {paper: invoice, number: 7, date: 2026-13-01}", "job.date"],
  ["issued: {paper: invoice, number: 7, date: 2026-03-01, hash: abc}", "job.hash"],
  ["customer: {name: A, country: Germany}", "party.country"],
  ["charged: {what: part, says: a, amount: 5, vat: {category: E}}", "trading.vat"],
  ["accepted: {price: 5}", "read.missing"],
  ["offered: []", "job.empty-event"],
])("%s is refused: %s", (event, code) => {
  const checked = read([event]);
  expect(checked.ok ? [] : checked.issues.map((issue) => issue.code)).toContain(code);
});
