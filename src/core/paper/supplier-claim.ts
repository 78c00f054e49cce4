import { minorOf, money, moneyText } from "../money/index.ts";
import { readingText } from "./before-after.ts";
import type { Paper } from "./paper.ts";
import { type PaperFacts, senderOf, thingSays } from "./paper-facts.ts";

/**
 * A claim on the supplier of a part that was bad; `undefined` where no part was ordered, or nothing was measured on it
 * since it was fitted: nothing is claimed of a part that nobody measured.
 */
export function supplierClaimOf(facts: PaperFacts): Paper | undefined {
  const { worked, account, number, date } = facts;
  const order = account.ordered.at(-1);
  if (order === undefined) return undefined;
  const says = order.says ?? thingSays(facts, order.part);
  const from = senderOf(facts);
  const { state, shop } = worked;
  const fitted = state.repairs.findLast(({ on }) => on === order.part);
  const since = fitted === undefined ? [] : state.observations.slice(fitted.after);
  const readings = since.flatMap(({ observation: one }) =>
    (one.kind === "reading" || one.kind === "count") && touches(one.probe, order.part) ? [readingText(facts, one)] : [],
  );
  if (readings.length === 0) return undefined;
  const currency = shop.trading?.currency;
  const price =
    order.price === undefined || currency === undefined
      ? []
      : [["Price", moneyText(money(minorOf(order.price, currency), currency))] as const];
  return {
    kind: "claim",
    title: "Claim for a part",
    ...(number === undefined ? {} : { number }),
    date,
    ...(from === undefined ? {} : { from }),
    ...(order.from === undefined ? {} : { to: { name: order.from, lines: [] } }),
    blocks: [
      {
        is: "paragraph",
        text: "The part named here is not as it should be. We ask for another one or for its price.",
        isStrong: true,
      },
      {
        is: "facts",
        rows: [
          ["Part", says],
          ...price,
          ["Arrived", order.arrived ? "yes" : "not noted"],
          ...(fitted === undefined ? [] : [["Fitted", `in a ${worked.sheet.title}: ${fitted.remedy}`] as const]),
          ["Our job", worked.job.id],
        ],
      },
      { is: "heading", text: "What was measured on it" },
      { is: "list", items: readings },
      { is: "signatures", lines: ["For the workshop, date"] },
    ],
  };
}

function touches({ from, to, measure }: { from?: string; to?: string; measure?: object }, part: string): boolean {
  return measure === undefined && [from, to].some((point) => point?.startsWith(`${part}.`) === true);
}
