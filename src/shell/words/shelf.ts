import { mayBeFitted, type OrderLine, type Shelf, type ShelfItem, type Taken } from "../../core/shelf/index.ts";
import { together } from "./list.ts";
import { width, wrap } from "./wrap.ts";

/** The shelf by place, what the jobs took, and what is to be ordered. */
export function shelfInWords(shelf: Shelf, taken: readonly Taken[], orders: readonly OrderLine[]): string[] {
  const places = (["van", "bench", "store"] as const).flatMap((where) => {
    const items = shelf.items.filter((item) => item.where === where);
    return items.length === 0
      ? []
      : [where === "bench" ? "On the bench" : `In the ${where}`, ...items.flatMap(itemInWords), ""];
  });
  const used = taken.map(({ job, part, state, item }) => {
    const from = item === undefined ? "not from the shelf" : `from the ${shelf.items[item]?.where}`;
    return `  job ${job}: ${state} ${part}, ${from}`;
  });
  const ordered = orders.flatMap(({ part, says, count, jobs, ordered }) => {
    const why = jobs.length === 0 ? "below its least" : `for job ${together(jobs)}`;
    return wrap(`${count} × ${part} (${says}), ${why}${ordered ? ", ordered" : ""}`, width, "  ", "    ");
  });
  return [
    ...(shelf.says === "" ? [] : [shelf.says, ""]),
    ...places,
    ...(used.length === 0 ? [] : ["Used up by the jobs", ...used, ""]),
    ...(ordered.length === 0 ? ["Nothing to order."] : ["To order", ...ordered]),
  ];
}

function itemInWords(item: ShelfItem): string[] {
  const { count, says, part, state, least, tag } = item;
  const tested =
    tag === undefined
      ? ""
      : ` · bench test ${tag.tested}: ${tag.grade}${tag.shows === undefined ? "" : `, ${tag.shows}`}`;
  const barred = mayBeFitted(item)
    ? ""
    : ` · not to be fitted: ${tag === undefined ? "not tested" : "the test was not passed"}`;
  const low = count < least ? ` · ${least} should lie here` : "";
  return wrap(`${count} × ${says} (${part}, ${state})${tested}${barred}${low}`, width, "  ", "      ");
}
