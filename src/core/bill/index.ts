// The door of `bill`: quote, invoice and credit note as data, their numbers, the electronic invoice, the payment code.
export type * from "./bill.ts";
export { creditNoteOf, invoiceOf, type Numbered, quoteOf } from "./bill-of.ts";
export { billText, keptBill } from "./kept-bill.ts";
export { paymentQr } from "./payment-qr.ts";
export { faultsOfSeries, nextNumber, type Series } from "./series.ts";
export { type Balance, balanceOf, creditedOf, type StandingInvoice, standingInvoices } from "./standing.ts";
export { writeUbl } from "./write-ubl.ts";
