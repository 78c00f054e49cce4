import { Radio, TextInput } from "@mantine/core";
import { type FormEvent, useState } from "react";
import { renderSVG } from "uqr";
import { useLocation } from "wouter";
import { balanceOf, keptBill, paymentQr, standingInvoices } from "../../../core/bill/index.ts";
import { decimalText } from "../../../core/money/index.ts";
import { papersText } from "../english-papers.ts";
import { today } from "../shell/today.ts";
import { typedAmount } from "./amount-text.ts";
import { Balance } from "./papers-list.tsx";
import type { PapersProps } from "./papers-screen.tsx";

const words = papersText;

/** What is open, large enough to be read across a table: the bank's code, and the payment to write down. */
export function PayPage({ id, papers, write }: PapersProps) {
  const { account, shop } = papers;
  const [, go] = useLocation();
  const [how, setHow] = useState<string>("cash");
  const [wrong, setWrong] = useState("");
  const currency = shop?.trading?.currency;
  if (currency === undefined) return <p role="status">{words.working}</p>;
  const { due } = balanceOf(account, currency);
  const [standing] = standingInvoices(account, currency);
  const kept = standing?.issued.content === undefined ? undefined : keptBill(standing.issued.content);
  const bill = kept?.ok === true ? kept.value : undefined;
  // The amount that is open today, on the account and under the reference that the invoice names.
  const payload = bill === undefined ? undefined : paymentQr({ ...bill, totals: { ...bill.totals, due } });
  const pay = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const amount = typedAmount(String(form.get("amount") ?? ""));
    setWrong(amount === undefined ? words.needAmount : "");
    if (amount === undefined) return;
    const number = standing?.issued.number;
    const body = { amount, how, date: String(form.get("date")), ...(number === undefined ? {} : { number }) };
    if ((await write({ kind: "paid", body })) !== undefined) go(`/papers/${id}`, { replace: true });
  };
  return (
    <>
      <h1>{words.payTitle}</h1>
      <Balance account={account} currency={currency} />
      {payload === undefined ? (
        due > 0 && <p>{words.payNoQr}</p>
      ) : (
        <figure className="pay-code">
          <img
            src={`data:image/svg+xml,${encodeURIComponent(renderSVG(payload, { border: 4, ecc: "M" }))}`}
            alt={words.payQr}
          />
          <figcaption>
            {bill?.bank !== undefined && (
              <span>{words.payTo(bill.bank.holder, bill.bank.account.replace(/(.{4})(?=.)/g, "$1 "))}</span>
            )}
            <span>{words.reference(bill?.reference ?? standing?.issued.number ?? "")}</span>
          </figcaption>
        </figure>
      )}
      <form className="form" onSubmit={pay} noValidate>
        <TextInput
          key={due}
          size="lg"
          name="amount"
          label={`${words.amount} (${currency})`}
          inputMode="decimal"
          defaultValue={due > 0 ? decimalText({ minor: due, currency }) : ""}
          error={wrong}
        />
        <Radio.Group label={words.how} value={how} onChange={setHow} size="lg">
          <div className="choices in-a-row">
            {Object.values(words.hows).map((one) => (
              <Radio key={one} value={one} label={one} size="lg" />
            ))}
          </div>
        </Radio.Group>
        <TextInput size="lg" type="date" name="date" label={words.day} defaultValue={today()} />
        <button type="submit" className="big-key">
          {words.writePaid}
        </button>
      </form>
    </>
  );
}
