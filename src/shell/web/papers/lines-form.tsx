import { TextInput } from "@mantine/core";
import { type FormEvent, useState } from "react";
import type { Bill, BillLine } from "../../../core/bill/index.ts";
import { decimalText } from "../../../core/money/index.ts";
import { papersText } from "../english-papers.ts";
import type { Write } from "../job/job-screen.tsx";
import { typedNumber } from "./amount-text.ts";
import type { OpenedPapers } from "./use-papers.ts";

const words = papersText.lines;

interface Row {
  readonly key: number;
  readonly says: string;
  readonly amount: string;
  readonly vat: BillLine["vat"] | undefined;
}

/** The lines of a bill, to be written by hand: from then on it is made of these alone, until they are taken back. */
export function LinesForm(props: { readonly bill: Bill; readonly papers: OpenedPapers; readonly write: Write }) {
  const { bill, papers, write } = props;
  const [rows, setRows] = useState(() => bill.lines.map((line, key) => rowOf(line, key, bill)));
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const withdrawals = papers.account.charges.map(({ event }) => ({
    kind: "withdraws",
    body: papers.ids[Number(event.replace(/^e/, "")) - 1] ?? "",
  }));
  const set = (key: number, change: Partial<Row>) =>
    setRows(rows.map((row) => (row.key === key ? { ...row, ...change } : row)));
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const kept = rows.filter(({ says, amount }) => says.trim() !== "" || amount.trim() !== "");
    const faults = kept.flatMap(({ key, says, amount }): [string, string][] => [
      ...(says.trim() === "" ? [[`says${key}`, words.needSays] as [string, string]] : []),
      ...(typedNumber(amount) === undefined ? [[`amount${key}`, papersText.needAmount] as [string, string]] : []),
    ]);
    setWrong(Object.fromEntries(faults));
    if (faults.length > 0) return;
    const charges = kept.map(({ says, amount, vat }) => {
      const value = typedNumber(amount) ?? 0;
      const body = { what: value < 0 ? "discount" : "other", says: says.trim(), amount: value, ...vatBody(vat) };
      return { kind: "charged", body };
    });
    await write(...withdrawals, ...charges);
  };
  return (
    <form className="form" onSubmit={put} noValidate>
      <p>{bill.withTax ? words.withTax : words.withoutTax}</p>
      {rows.map(({ key, says, amount }, n) => (
        <div className="bill-line" key={key}>
          <TextInput
            size="lg"
            aria-label={words.says(n + 1)}
            value={says}
            error={wrong[`says${key}`]}
            onChange={(event) => set(key, { says: event.currentTarget.value })}
          />
          <TextInput
            size="lg"
            aria-label={words.amount(n + 1)}
            inputMode="decimal"
            value={amount}
            error={wrong[`amount${key}`]}
            onChange={(event) => set(key, { amount: event.currentTarget.value })}
          />
        </div>
      ))}
      <button
        type="button"
        className="line-key"
        onClick={() => setRows([...rows, { key: (rows.at(-1)?.key ?? -1) + 1, says: "", amount: "", vat: undefined }])}
      >
        {words.add}
      </button>
      <button type="submit" className="big-key low">
        {words.write}
      </button>
      {withdrawals.length > 0 && (
        <button type="button" className="line-key" onClick={() => write(...withdrawals)}>
          {words.back}
        </button>
      )}
    </form>
  );
}

function rowOf({ says, quantity, unit, told, vat }: BillLine, key: number, { currency }: Bill): Row {
  const minutes = unit === "MIN" ? ` (${words.minutes(quantity)})` : "";
  return { key, says: `${says}${minutes}`, amount: decimalText({ minor: told, currency }), vat };
}

function vatBody(vat: BillLine["vat"] | undefined): object {
  if (vat === undefined) return {};
  const { category, hundredths, reason } = vat;
  return { vat: { category, percent: hundredths / 100, ...(reason === undefined ? {} : { reason }) } };
}
