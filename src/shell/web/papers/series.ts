import type { Series } from "../../../core/bill/index.ts";
import type { JobPaperKind } from "../../../core/paper/index.ts";
import type { Settings } from "../shell/app-state.tsx";

const DIGITS = 4;

/** What this device's invoices begin with: told in the settings, else two signs of the device, so that no two devices give one number. */
export function prefixOf({ series, device }: Settings): string {
  return series?.prefix ?? `F${device.slice(-2).toUpperCase()}-`;
}

/**
 * The series that a paper's number is of: each device has its own, quotes and credit notes beside the invoices theirs.
 * A job of the demonstration takes no number of the shop's.
 *
 * @returns none for a paper that bears no number
 */
export function seriesOf(paper: JobPaperKind, settings: Settings, demo: boolean): Series | undefined {
  const prefix = demo ? "DEMO-" : prefixOf(settings);
  switch (paper) {
    case "invoice": {
      const first = demo ? undefined : settings.series?.first;
      return { prefix, digits: DIGITS, ...(first === undefined ? {} : { first }) };
    }
    case "credit note":
      return { prefix: `${prefix}C`, digits: DIGITS };
    case "quote":
      return { prefix: `${prefix}Q`, digits: DIGITS };
    default:
      return undefined;
  }
}
