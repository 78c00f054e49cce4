import { papersText } from "../english-papers.ts";
import { partyTyped } from "./party-fields.tsx";

/** What was typed of the shop, in the words of a cost file, and by field what is none. */
export function ownTyped(form: FormData): { readonly own: object; readonly faults: Readonly<Record<string, string>> } {
  const typed = (name: string): string => String(form.get(name) ?? "").trim();
  const { party, faults } = partyTyped(form);
  const only = (...names: readonly string[]) =>
    Object.fromEntries(names.filter((name) => typed(name) !== "").map((name) => [name, typed(name)]));
  const amount = (name: string): string => typed(name).replace(",", ".");
  const account = typed("account").replaceAll(/\s/g, "").toUpperCase();
  const bank = account === "" ? {} : { bank: { holder: typed("holder") || typed("name"), account, ...only("bic") } };
  const reason = typed("reason");
  const [months, used] = [typed("guarantee new"), typed("guarantee used")];
  const { bands, wrong } = bandsTyped(typed("bands"));
  const own = {
    letterhead: { ...party, ...only("tax number", "registration"), ...bank },
    currency: typed("currency").toUpperCase(),
    vat: reason === "" ? amount("vat") : { category: "O", reason },
    "per hour": amount("per hour"),
    "call-out": amount("call-out"),
    diagnosis: amount("diagnosis"),
    "due days": typed("due days"),
    ...(months === "" && used === ""
      ? {}
      : { guarantee: { ...(months === "" ? {} : { new: months }), ...(used === "" ? {} : { used }) } }),
    ...(amount("deposit") === "" ? {} : { deposit: `${amount("deposit")} %` }),
    ...(bands.length === 0 ? {} : { bands }),
  };
  const blank = ["vat", "per hour", "call-out", "diagnosis", "due days"].filter(
    (name) => !(name === "vat" && reason !== "") && !/^\d+(\.\d+)?$/.test(amount(name)),
  );
  return {
    own,
    faults: {
      ...faults,
      ...Object.fromEntries(blank.map((name) => [name, papersText.own.needNumber])),
      ...(wrong === undefined ? {} : { bands: papersText.own.badBands(wrong) }),
    },
  };
}

/** "30 45.00": up to so many minutes, and the price. */
function bandsTyped(text: string): { readonly bands: readonly object[]; readonly wrong?: string } {
  const bands: object[] = [];
  for (const line of text.split("\n").filter((one) => one.trim() !== "")) {
    const [, to, price] = /^\s*(\d+)\D+?(\d+(?:[.,]\d{1,2})?)\s*$/.exec(line) ?? [];
    if (to === undefined || price === undefined) return { bands, wrong: line.trim() };
    bands.push({ to, price: price.replace(",", ".") });
  }
  return { bands };
}
