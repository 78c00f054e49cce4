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
    const folder = mkdtempSync(join(tmpdir(), "paper-"));
    const [file, ubl] = [join(folder, "job.yaml"), join(folder, "invoice.xml")];
    writeFileSync(file, JOB);
    const asked = ["paper", file, "--kind", "invoice", "--number", "F-0007", "--date", "2026-03-04"];
    const invoice = json(...asked, "--ubl", ubl);
    expect(invoice.bill.totals).toMatchObject({ gross: 19000, paid: 4000, due: 15000 });
    expect(invoice.paymentQr.split("\n")[7]).toBe("EUR150.00");
    expect(readFileSync(ubl, "utf8")).toContain('<cbc:PayableAmount currencyID="EUR">150.00</cbc:PayableAmount>');

    const kept = faultwright(...asked, "--issue");
    expect(kept.out).toBe(`  - ${JSON.stringify(invoice.event).replace('{"issued":', "issued: ").slice(0, -1)}\n`);
    writeFileSync(file, `${JOB}${kept.out}  - paid: {amount: 150, how: card}\n`);
    const twice = faultwright(...asked, "--issue");
    expect([twice.code, twice.err.includes("invoice F-0007")]).toEqual([2, true]);
    const credit = ["paper", file, "--kind", "credit note", "--date", "2026-03-10", "--why", "failed again"];
    const part = json(...credit, "--number", "G-0001", "--amount", "60");
    expect(part.event.issued).toMatchObject({ paper: "credit note", of: "F-0007", total: -60 });

    // What is left after a part was taken back; and no more than that.
    writeFileSync(file, `${readFileSync(file, "utf8")}  - ${JSON.stringify(part.event)}\n`);
    const rest = json(...credit, "--number", "G-0002", "--anew");
    expect(rest.event.issued).toMatchObject({ of: "F-0007", total: -130 });
    const more = faultwright(...credit, "--number", "G-0002", "--anew", "--amount", "131");
    expect([more.code, more.err.includes("at most 130.00 EUR")]).toEqual([2, true]);

    // A content that is not the one handed over is not credited.
    writeFileSync(file, readFileSync(file, "utf8").replace('\\"told\\":4500', '\\"told\\":4600'));
    const changed = faultwright(...credit, "--number", "G-0002", "--anew");
    expect([changed.code, changed.err.includes("content was changed")]).toEqual([2, true]);
  },
  LONG,
);
