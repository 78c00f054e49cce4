import type { MoneyEvent } from "../../core/ledger/index.ts";

/** An event about money on one line: "may spend 250", "invoice F-0007 handed over". */
export function moneyInBrief(event: MoneyEvent): string {
  switch (event.kind) {
    case "customer":
    case "payer":
      return `${event.kind}: ${event.party.name}`;
    case "allowed":
      return `may be spent without asking: ${event.amount}`;
    case "fees":
      return `told before the work: call-out ${event.callOut}, finding the fault ${event.diagnosis}`;
    case "offered":
      return `shown: ${event.choices.map(({ says, price }) => `${says} for ${price}`).join("; ")}`;
    case "accepted":
    case "declined":
      return `${event.kind}: ${event.choice}${event.signed === undefined ? "" : `, ${signatureInBrief(event.signed)}`}`;
    case "charged":
      return `${event.says}: ${event.amount}`;
    case "issued":
      return `${event.paper} ${event.number} handed over`;
    case "paid":
      return `paid: ${event.amount}${event.how === undefined ? "" : `, ${event.how}`}`;
    case "ordered":
      return `ordered: ${event.says ?? event.part}`;
    case "arrived":
      return `arrived: ${event.part}`;
  }
}

/** A drawing on the glass is named by the hash of its bytes, which tells nobody anything. */
function signatureInBrief(signed: string): string {
  return /^[0-9a-f]{64}$/.test(signed) ? "signed" : signed;
}
