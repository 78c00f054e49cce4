import { NativeSelect, TextInput } from "@mantine/core";
import { type FormEvent, useCallback, useEffect, useRef, useState } from "react";
import { useLocation } from "wouter";
import { standingInvoices } from "../../../core/bill/index.ts";
import type { IssuedPaper } from "../../../core/ledger/index.ts";
import { type Credit, type JobPaperKind, PAPER_KINDS } from "../../../core/paper/index.ts";
import { issue, nextNumberOf } from "../../store/issue.ts";
import { askEngine } from "../engine/client.ts";
import type { ShownPaper } from "../engine/papers-protocol.ts";
import { text } from "../english.ts";
import { papersText } from "../english-papers.ts";
import { useApp } from "../shell/app-state.tsx";
import { Folded } from "../shell/folded.tsx";
import { today } from "../shell/today.ts";
import { Troubles } from "../shell/troubles.tsx";
import { useLive } from "../shell/use-live.ts";
import { minorText, typedAmount } from "./amount-text.ts";
import { LinesForm } from "./lines-form.tsx";
import { PaperSheet } from "./paper-sheet.tsx";
import { addressOf } from "./papers-list.tsx";
import type { PapersProps } from "./papers-screen.tsx";
import { seriesOf } from "./series.ts";

const words = papersText;

/** A paper as the job stands now; it can be looked at, and handed over. */
export function NewPaperPage({ id, papers, write, address }: PapersProps & { readonly address: string }) {
  const [credit, setCredit] = useState<Credit>();
  const kind = PAPER_KINDS.find((one): one is JobPaperKind => one !== "tag" && addressOf(one) === address);
  if (kind === undefined) return <p className="trouble">{words.gone}</p>;
  return (
    <>
      <h1>{words.kinds[kind]}</h1>
      {kind === "credit note" && credit === undefined ? (
        <CreditForm papers={papers} onMake={setCredit} />
      ) : (
        <Made id={id} papers={papers} write={write} kind={kind} credit={credit} />
      )}
    </>
  );
}

interface MadePaper extends ShownPaper {
  readonly issued?: IssuedPaper;
  /** Last event of the job that it was made from. */
  readonly last: string;
}

function Made(props: PapersProps & { readonly kind: JobPaperKind; readonly credit: Credit | undefined }) {
  const { id, papers, write, kind, credit } = props;
  const { db, ledger, settings } = useApp();
  const [, go] = useLocation();
  const [made, setMade] = useState<MadePaper>();
  const [issues, setIssues] = useState<readonly string[]>([]);
  const [said, setSaid] = useState("");
  const busy = useRef(false);
  const { demo, text: job, last } = papers;
  const series = seriesOf(kind, settings, demo);
  const key = JSON.stringify(series);
  const number = useLive(
    useCallback(async () => {
      const own = key === undefined ? undefined : JSON.parse(key);
      return own === undefined ? "" : await nextNumberOf(db, kind, own);
    }, [db, kind, key]),
  );
  useEffect(() => {
    if (number === undefined) return;
    let current = true;
    const numbered = number === "" ? {} : { number };
    askEngine({
      do: "paper",
      kind,
      text: job,
      date: today(),
      demo,
      ...numbered,
      ...(credit === undefined ? {} : { credit }),
    })
      .then((answer) => {
        if (!current) return;
        if (answer.ok) setMade({ ...answer, last });
        setIssues(answer.ok ? [] : answer.issues);
      })
      .catch((error: Error) => {
        if (current) setIssues([error.message]);
      });
    return () => {
      current = false;
    };
  }, [number, kind, job, demo, credit, last]);

  const handOver = async () => {
    const paper = made?.issued;
    // A second tap while the first is being written is the same tap.
    if (made === undefined || paper === undefined || busy.current) return;
    busy.current = true;
    setSaid(words.handing);
    try {
      const asked = { job: id, made: made.last, paper, ...(series === undefined ? {} : { series }) };
      const came = await issue(db, ledger, asked);
      if (came.is === "issued") go(`/papers/${id}/kept/${came.event}`, { replace: true });
      else setSaid(came.is === "renumber" ? words.renumber : words.changed);
    } catch (error) {
      setSaid(`${text.failed} ${error instanceof Error ? error.message : String(error)}`);
    } finally {
      busy.current = false;
    }
  };
  if (issues.length > 0) return <Troubles issues={issues} />;
  if (made === undefined) return <p role="status">{words.working}</p>;
  const isBehind = made.last !== last || (number !== undefined && number !== "" && made.paper.number !== number);
  const minutes = kind === "invoice" ? (made.bill?.lines ?? []).filter(({ unit }) => unit === "MIN") : [];
  // Lines that somebody wrote say what they wanted to say.
  const reckoned = papers.account.charges.length > 0 ? 0 : minutes.reduce((sum, { quantity }) => sum + quantity, 0);
  return (
    <>
      <PaperSheet paper={made.paper} bill={made.bill} />
      {reckoned > 0 && <p>{words.reckoned(reckoned)}</p>}
      {made.bill !== undefined && kind !== "credit note" && (
        <Folded says={words.changeLines}>
          <LinesForm key={made.issued?.hash} bill={made.bill} papers={papers} write={write} />
        </Folded>
      )}
      {made.issued === undefined ? (
        <p className="trouble">{words.insecure}</p>
      ) : (
        <>
          <button type="button" className="big-key" disabled={isBehind} onClick={handOver}>
            {words.handOver}
          </button>
          <p>{words.handOverAbout}</p>
        </>
      )}
      <p role="alert">{said}</p>
    </>
  );
}

/** What is taken back, and why. */
function CreditForm(props: { readonly papers: PapersProps["papers"]; readonly onMake: (credit: Credit) => void }) {
  const { papers, onMake } = props;
  const [wrong, setWrong] = useState<{ readonly why?: string; readonly amount?: string }>({});
  const currency = papers.shop?.trading?.currency;
  const standing = currency === undefined ? [] : standingInvoices(papers.account, currency);
  if (currency === undefined) return <p role="status">{words.working}</p>;
  if (standing.length === 0) return <p>{words.whyNot["no invoice"]}</p>;
  const make = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const typed = (name: string): string => String(form.get(name) ?? "").trim();
    const amount = typedAmount(typed("amount"));
    const faults = {
      ...(typed("why") === "" ? { why: words.needWhy } : {}),
      ...(typed("amount") !== "" && amount === undefined ? { amount: words.needAmount } : {}),
    };
    setWrong(faults);
    if (Object.keys(faults).length > 0) return;
    onMake({ why: typed("why"), of: typed("of"), ...(amount === undefined ? {} : { amount }) });
  };
  return (
    <form className="form" onSubmit={make} noValidate>
      <NativeSelect
        size="lg"
        name="of"
        label={words.which}
        data={standing.map(({ issued, left }) => ({
          value: issued.number,
          label: `${issued.number} · ${minorText(left, currency)}`,
        }))}
      />
      <TextInput size="lg" name="why" label={words.why} error={wrong.why} />
      <TextInput size="lg" name="amount" label={words.part} inputMode="decimal" error={wrong.amount} />
      <button type="submit" className="big-key">
        {words.make}
      </button>
    </form>
  );
}
