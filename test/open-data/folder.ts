import { existsSync } from "node:fs";
import { join } from "node:path";

/**
 * A folder of open data with its own licence, which is not ours to ship: it is looked for where FAULTWRIGHT_OPEN_DATA says, or
 * beside the clone under `shared/data`. `told` is the title of the tests that need it, and says why they are skipped where it is
 * absent; so does a line in the terminal, where titles of skipped tests are not shown.
 */
export function openData(name: string): { readonly folder: string; readonly isThere: boolean; readonly told: string } {
  const folder = join(process.env.FAULTWRIGHT_OPEN_DATA ?? "../shared/data", name);
  const isThere = existsSync(folder);
  const why = isThere ? "" : ` - SKIPPED: no folder ${folder} here; name it in FAULTWRIGHT_OPEN_DATA`;
  if (!isThere) console.warn(`open data "${name}"${why}`);
  return { folder, isThere, told: `open data "${name}"${why}` };
}
