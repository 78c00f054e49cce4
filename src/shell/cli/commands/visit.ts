import type { Command } from "commander";
import { readJob } from "../../../core/ledger/index.ts";
import { customerCard, visitEntry } from "../../../core/visit/index.ts";
import { applianceOf } from "../appliance.ts";
import { readText } from "../files.ts";
import { shopNamed } from "../library.ts";
import { need } from "../outcome.ts";
import { wholeNumber } from "../whole-number.ts";

interface VisitOptions {
  readonly number?: number;
  readonly card?: true;
}

/** A visit as a calendar entry, or the customer as a contact card, on standard output. */
export function addVisit(program: Command): void {
  program
    .command("visit <JOB>")
    .description("a visit of the job for any calendar (iCalendar); --card: its customer for any address book (vCard)")
    .option("--number <n>", "which visit; the last when silent", wholeNumber(1))
    .option("--card", "the customer instead")
    .addHelpText(
      "after",
      `
Moved or called off it is the same entry, changed: take it into the calendar again.
Examples:
  faultwright visit JOB.yaml > visit.ics
  faultwright visit JOB.yaml --card > customer.vcf
`,
    )
    .action((file: string, { number, card }: VisitOptions) => {
      const job = need(readJob(need(readText(file)), file));
      const shop = shopNamed(job.shop);
      const party = shop.letterhead?.party ?? { name: shop.says, lines: [] };
      const now = Math.floor(Date.now() / 1000);
      const text = card
        ? customerCard(job, party)
        : visitEntry(job, { shop: party, appliance: applianceOf(job) }, now, number);
      process.stdout.write(need(text, file));
    });
}
