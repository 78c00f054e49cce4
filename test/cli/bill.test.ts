import { mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { faultwright } from "./run-command.ts";

const LONG = 120_000;

const JOB = `format: faultwright-job/1
job: 26-0199
branch: [switch, cutout, "heater:2kW", relay]
complaint: stays cold
events:
  - customer: {name: A. Sample, lines: [7 Mill Row], town: Ostermoor, country: DE}
  - offered: [{choice: heater/fit a new heater, says: a new heater, price: 190}]
  - accepted: {choice: heater/fit a new heater, signed: drawing 1}
  - did: {remedy: fit a new heater, on: heater, worked: yes, price: 80}
  - paid: {amount: 40, how: cash}
`;

/** What a command prints as JSON; it must have gone well. */
function json(...args: readonly string[]) {
  const ran = faultwright(...args, "--json");
  expect(ran.err).toBe("");
  return JSON.parse(ran.out);
}

test(
  "a job goes from the price accepted to an invoice that is kept, and to a credit note that takes it back",
  () => {
    const folder = mkdtempSync(join(tmpdir(), "bill-"));
    const [file, ubl] = [join(folder, "job.yaml"), join(folder, "invoice.xml")];
    writeFileSync(file, JOB);
    const invoice = json("bill", file, "--number", "F-0007", "--date", "2026-03-04", "--ubl", ubl);
    expect(invoice.bill.totals).toMatchObject({ gross: 19000, paid: 4000, due: 15000 });
    expect(invoice.paymentQr.split("\n")[7]).toBe("EUR150.00");
    expect(readFileSync(ubl, "utf8")).toContain('<cbc:PayableAmount currencyID="EUR">150.00</cbc:PayableAmount>');

    writeFileSync(file, `${JOB}  - ${JSON.stringify(invoice.event)}\n  - paid: {amount: 150, how: card}\n`);
    const back = ["--number", "G-0001", "--date", "2026-03-10", "--of", "F-0007", "--why", "failed again"];
    const note = json("bill", file, "--kind", "credit-note", ...back);
    expect(note.bill.totals.due).toBe(19000);
    expect(note.event.issued).toMatchObject({ paper: "credit note", of: "F-0007", total: -190 });

    // A content that is not the one handed over is not credited.
    writeFileSync(file, readFileSync(file, "utf8").replace('\\"told\\":4500', '\\"told\\":4600'));
    const changed = faultwright("bill", file, "--kind", "credit-note", ...back);
    expect([changed.code, changed.err.includes("still has its hash")]).toEqual([2, true]);
  },
  LONG,
);
