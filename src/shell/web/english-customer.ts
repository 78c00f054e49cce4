/**
 * Words of the page that is turned round to the customer: a part of the catalogue that no job waits for. Another language is
 * another object of this shape.
 */
const english = {
  title: "What can be done",
  back: "Back to the job",
  working: "Working out what can be done …",
  forWhom: "For",
  limit: (amount: string) => `May be spent without asking: ${amount}.`,
  noLimit: "No amount was agreed that may be spent without asking.",
  pays: (who: string) => `${who} pays.`,
  columns: { pays: "You pay in all", cured: "Mended", back: "Comes back", ready: "Ready" },
  deposit: (amount: string) => `${amount} of it when the part is ordered`,
  within: (months: number | undefined) =>
    months === undefined ? "within 12 months" : `within the guarantee of ${months} months`,
  notMended: "not mended",
  none: "–",
  today: (work: string) => `today, in ${work}`,
  ordered: "when the part is here",
  days: (lo: number, hi: number) => `in ${lo === hi ? lo : `${lo} to ${hi}`} working days`,
  found: "when the fault is found",
  accept: "Accept",
  decline: "No, not this",
  declined: "Said no to this.",
  noneOfThese: "None of these",
  later: "Not decided yet: keep what was shown",
  kept: "What was shown is written down.",
  expected: "Amounts are expected, not promised: what is agreed is what the quote says.",
  agreed: "Agreed",
  takeBack: "Take it back",
  withSignature: "signed",
  byWord: "agreed by word, not signed",
  signature: "Signature",
  signatureOf: (who: string) => `Signature of ${who}`,
  signTitle: { accepted: "You agree to this", declined: "You do not want a repair" },
  gone: "This is not among the choices any more.",
  toTable: "Back to the choices",
  atPrice: (says: string, price: string) => `${says}: ${price} in all`,
  agreedAt: (says: string, price: string) => `${says}: about ${price} in all`,
  declinesAll: "None of the choices shown. The machine stays as it is, made safe.",
  who: "Name of who decides",
  pad: "Sign here, with a finger or the mouse",
  clear: "Sign anew",
  sign: "Done: signed",
  without: "Agreed without a signature",
  withoutDeclined: "Declined without a signature",
  refused: "Refused to sign",
  notHere: "A signature cannot be kept here: this page did not come over https. What is agreed can.",
} as const;

/** The words in use. */
export const customerText: typeof english = english;
