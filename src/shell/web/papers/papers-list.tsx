import { Link } from "wouter";
import { balanceOf } from "../../../core/bill/index.ts";
import { dayText } from "../../../core/day/index.ts";
import type { Currency } from "../../../core/money/index.ts";
import type { JobPaperKind, PaperOffer, WhyNot } from "../../../core/paper/index.ts";
import { visitsOf } from "../../../core/visit/index.ts";
import { papersText } from "../english-papers.ts";
import { whenText } from "../shell/when-text.ts";
import { amountText, minorText } from "./amount-text.ts";
import type { PapersProps } from "./papers-screen.tsx";
import type { OpenedPapers } from "./use-papers.ts";

const words = papersText;

/** What was agreed before the work, what is open, what was handed over, what can be made, and why another cannot yet. */
export function PapersList({ id, papers }: PapersProps) {
  const { record, offers, thinking } = papers;
  return (
    <>
      <h1>{words.title}</h1>
      <p>
        <b className="number">{record.head.number}</b> {record.head.complaint}
      </p>
      <section>
        <h2>{words.sections.before}</h2>
        <Before papers={papers} />
        <Link className="line-key" href={`/papers/${id}/people`}>
          {words.change}
        </Link>
      </section>
      <Money id={id} papers={papers} />
      <Given id={id} papers={papers} />
      <p role="status" className="papers-working">
        {thinking && papers.issues.length === 0 ? words.working : ""}
      </p>
      <Offers
        title={words.sections.can}
        offers={offers.filter(({ why }) => why === undefined)}
        line={({ kind }) => (
          <Link href={`/papers/${id}/new/${addressOf(kind)}`} className="paper-line">
            <b>{words.kinds[kind]}</b>
            <span className="faint">{words.about[kind]}</span>
          </Link>
        )}
      />
      <Offers
        title={words.sections.cannot}
        offers={offers.filter(({ why }) => why !== undefined)}
        line={({ kind, why }) => (
          <div className="paper-line">
            <b>{words.kinds[kind]}</b>
            <span>{why === undefined ? "" : words.whyNot[why]}</span>
            {why !== undefined && <WayOut id={id} why={why} />}
          </div>
        )}
      />
    </>
  );
}

/** The kind of paper as an address bears it, and back. */
export function addressOf(kind: JobPaperKind): string {
  return kind.replaceAll(" ", "-");
}

function Offers(props: {
  readonly title: string;
  readonly offers: readonly PaperOffer[];
  readonly line: (offer: PaperOffer) => React.ReactNode;
}) {
  if (props.offers.length === 0) return null;
  return (
    <section>
      <h2>{props.title}</h2>
      <ul className="ledger">
        {props.offers.map((offer) => (
          <li key={offer.kind}>{props.line(offer)}</li>
        ))}
      </ul>
    </section>
  );
}

/** Where what is missing is mended; nothing where only the work itself mends it. */
function WayOut({ id, why }: { readonly id: string; readonly why: WhyNot }) {
  switch (why) {
    case "no customer":
      return <Link href={`/papers/${id}/people`}>{words.mend.people}</Link>;
    case "no letterhead":
    case "no prices":
      return <Link href="/settings/shop">{words.mend.settings}</Link>;
    case "no tests":
    case "not closed":
      return <Link href={`/closing/${id}`}>{words.mend.closing}</Link>;
    default:
      return null;
  }
}

function Before({ papers }: { readonly papers: OpenedPapers }) {
  const { account, job, shop } = papers;
  const { customer, payer, limit, fees } = account;
  const currency = shop?.trading?.currency;
  const visit = visitsOf(job).at(-1);
  const rows: readonly (readonly [string, string])[] = [
    [words.facts.customer, customer === undefined ? words.facts.nobody : partyText(customer)],
    [words.facts.payer, payer === undefined ? words.facts.same : partyText(payer)],
    [
      words.facts.limit,
      limit === undefined
        ? words.facts.noLimit
        : words.facts.by(amountText(limit.amount, currency), byText(limit), written(papers, limit.event)),
    ],
    [
      words.facts.fees,
      fees === undefined
        ? words.facts.notTold
        : words.facts.by(
            words.facts.fee(amountText(fees.callOut, currency), amountText(fees.diagnosis, currency)),
            byText(fees),
            written(papers, fees.event),
          ),
    ],
    [
      words.facts.visit,
      visit === undefined ? words.facts.noVisit : visit.isCancelled ? words.people.calledOff : whenText(visit.at),
    ],
  ];
  return (
    <dl className="paper-facts">
      {rows.map(([label, value]) => (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      ))}
    </dl>
  );
}

function byText({ who, how }: { readonly who?: string; readonly how?: string }): string | undefined {
  const told = [who, how].filter((word) => word !== undefined);
  return told.length === 0 ? undefined : told.join(", ");
}

/** When an event of the job file was written: `e3` is its third. */
function written({ record, ids }: OpenedPapers, event: string): string {
  const id = ids[Number(event.replace(/^e/, "")) - 1];
  const found = record.events.find((one) => one.id === id);
  return found === undefined ? "" : whenText(found.time);
}

function partyText({ name, lines, postcode, town, phone }: NonNullable<OpenedPapers["account"]["customer"]>): string {
  const place = [postcode, town].filter((word) => word !== undefined).join(" ");
  return [name, ...lines, place, phone].filter((word) => word !== undefined && word !== "").join(", ");
}

function Money({ id, papers }: { readonly id: string; readonly papers: OpenedPapers }) {
  const { account, shop } = papers;
  const currency = shop?.trading?.currency;
  if (currency === undefined) return null;
  return (
    <section>
      <h2>{words.sections.money}</h2>
      <Balance account={account} currency={currency} />
      {account.paid.length > 0 && (
        <ul className="ledger">
          {account.paid.map(({ event, amount, how, date }) => (
            <li key={event} className="paper-line">
              {words.paidLine(amountText(amount, currency), how, date === undefined ? undefined : dayText(date))}
            </li>
          ))}
        </ul>
      )}
      <Link className="big-key quiet low" href={`/papers/${id}/pay`}>
        {words.pay}
      </Link>
    </section>
  );
}

/** One sentence first, the sums behind it. */
export function Balance({
  account,
  currency,
}: {
  readonly account: OpenedPapers["account"];
  readonly currency: Currency;
}) {
  const { asked, paid, due } = balanceOf(account, currency);
  if (asked === 0) return <p>{paid === 0 ? words.nothingAsked : words.paidInAdvance(minorText(paid, currency))}</p>;
  const says =
    due > 0 ? words.open(minorText(due, currency)) : due === 0 ? words.settled : words.owed(minorText(-due, currency));
  return (
    <p>
      <b className="balance">{says}</b>
      <span className="faint sums">{words.sums(minorText(asked, currency), minorText(paid, currency))}</span>
    </p>
  );
}

function Given({ id, papers }: { readonly id: string; readonly papers: OpenedPapers }) {
  const { account, ids, shop } = papers;
  const currency = shop?.trading?.currency;
  return (
    <section>
      <h2>{words.sections.given}</h2>
      {account.issued.length === 0 && <p>{words.noneGiven}</p>}
      <ul className="ledger">
        {account.issued.map(({ event, paper, number, date, total }) => (
          <li key={event}>
            <Link href={`/papers/${id}/kept/${ids[Number(event.replace(/^e/, "")) - 1]}`} className="paper-line">
              <b>
                {kindSays(paper)} <span className="number">{number}</span>
              </b>
              <span className="faint">
                {dayText(date)}
                {total === undefined ? "" : ` · ${amountText(total, currency)}`}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A paper by its name on the screen; one that this version does not know by its own. */
export function kindSays(kind: string): string {
  return Object.hasOwn(words.kinds, kind) ? words.kinds[kind as JobPaperKind] : kind;
}
