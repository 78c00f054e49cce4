import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import { type Job, readJob, type WorkedJob, workOut } from "../../core/ledger/index.ts";
import { branchSheet, type Library, type Sheet } from "../../core/sheet/index.ts";
import { readText } from "./files.ts";
import { sheetNamed, shippedLibrary, shippedMeters, shopNamed } from "./library.ts";
import { need } from "./outcome.ts";

/** Reads a job and everything it names, and works it out; ends the command with every issue when something is wrong. */
export function openJob(file: string): WorkedJob {
  const job = need(readJob(need(readText(file)), file));
  const library = shippedLibrary();
  const ground = {
    library,
    meters: shippedMeters(),
    shop: shopNamed(job.shop),
    sheet: sheetOf(job, file, library),
  };
  return need(workOut(job, ground, file), file);
}

/** A sheet beside the job goes before a shipped one of the same name. */
function sheetOf(job: Job, file: string, library: Library): Sheet {
  if (job.sheet.kind === "branch") return need(branchSheet(job.sheet.kinds, library), file);
  const beside = join(dirname(file), `${job.sheet.name}.yaml`);
  return sheetNamed(existsSync(beside) ? beside : job.sheet.name, library);
}
