import { TextInput } from "@mantine/core";
import { type FormEvent, useState } from "react";
import { customerCard, visitEntry, visitsOf } from "../../../core/visit/index.ts";
import { papersText } from "../english-papers.ts";
import { saveFile } from "../shell/save-file.ts";
import { whenText } from "../shell/when-text.ts";
import { amountText, typedAmount } from "./amount-text.ts";
import { HowChoice } from "./how-choice.tsx";
import { localMoment } from "./local-moment.ts";
import type { PapersProps } from "./papers-screen.tsx";
import { PartyForm } from "./party-form.tsx";

const words = papersText.people;

/** Who is who, what may be spent, the fees that were told, and the visit: before the work, and changed at any time. */
export function PeoplePage(props: PapersProps) {
  const { account } = props.papers;
  return (
    <>
      <h1>{words.title}</h1>
      <PartyForm title={words.customer} kind="customer" party={account.customer} write={props.write} />
      <Limit {...props} />
      <Fees {...props} />
      <Visit {...props} />
      <PartyForm title={words.payer} kind="payer" party={account.payer} write={props.write} />
    </>
  );
}

function Limit({ papers, write }: PapersProps) {
  const { limit } = papers.account;
  const [how, setHow] = useState<string>(limit?.how ?? words.hows[0]);
  const [wrong, setWrong] = useState("");
  const [kept, setKept] = useState(false);
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const amount = typedAmount(String(form.get("amount") ?? ""));
    const who = String(form.get("who") ?? "").trim();
    setWrong(amount === undefined ? papersText.needAmount : "");
    if (amount === undefined) return;
    setKept((await write({ kind: "allowed", body: { amount, ...(who === "" ? {} : { who }), how } })) !== undefined);
  };
  return (
    <section>
      <h2>{words.limit}</h2>
      <p>{words.limitAbout}</p>
      <form className="form" onSubmit={put} noValidate>
        <TextInput
          size="lg"
          name="amount"
          label={papersText.amount}
          inputMode="decimal"
          defaultValue={limit?.amount ?? ""}
          error={wrong}
        />
        <TextInput
          size="lg"
          name="who"
          label={words.who}
          defaultValue={limit?.who ?? papers.account.customer?.name ?? ""}
        />
        <HowChoice value={how} onChange={setHow} />
        <button type="submit" className="big-key low">
          {words.writeLimit}
        </button>
        <p role="status">{kept ? words.saved : ""}</p>
      </form>
    </section>
  );
}

function Fees({ papers, write }: PapersProps) {
  const { account, shop } = papers;
  const [how, setHow] = useState<string>(account.fees?.how ?? words.hows[0]);
  const [kept, setKept] = useState(false);
  const trading = shop?.trading;
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    if (trading === undefined) return;
    const who = String(new FormData(event.currentTarget).get("told") ?? "").trim();
    const body = {
      "call-out": trading.callOut,
      diagnosis: trading.diagnosis,
      ...(who === "" ? {} : { who }),
      how,
    };
    setKept((await write({ kind: "fees", body })) !== undefined);
  };
  return (
    <section>
      <h2>{words.fees}</h2>
      {trading === undefined ? (
        <p>{shop === undefined ? papersText.working : words.noFees}</p>
      ) : (
        <form className="form" onSubmit={put} noValidate>
          <p>
            {words.feesAbout(
              amountText(trading.callOut, trading.currency),
              amountText(trading.diagnosis, trading.currency),
            )}
          </p>
          <TextInput
            size="lg"
            name="told"
            label={words.told}
            defaultValue={account.fees?.who ?? account.customer?.name ?? ""}
          />
          <HowChoice value={how} onChange={setHow} />
          <button type="submit" className="big-key low">
            {words.writeFees}
          </button>
          <p role="status">{kept ? words.saved : ""}</p>
        </form>
      )}
    </section>
  );
}

function Visit({ papers, write }: PapersProps) {
  const { job, shop, account } = papers;
  const visit = visitsOf(job).at(-1);
  const [wrong, setWrong] = useState("");
  const number = visit === undefined ? 1 : visit.isCancelled ? visit.number + 1 : visit.number;
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const [day, time] = [String(form.get("day") ?? ""), String(form.get("time") ?? "")];
    const minutes = Math.round(Number(form.get("minutes")));
    const at = day === "" || time === "" ? undefined : localMoment(new Date(`${day}T${time}`));
    setWrong(at === undefined ? words.needTime : "");
    if (at === undefined) return;
    await write({ kind: "visit", body: { at, number, ...(minutes > 0 && minutes <= 1440 ? { minutes } : {}) } });
  };
  const from = { name: shop?.name ?? "", lines: [] };
  const save = (kind: "ics" | "vcf") => {
    const made = Math.floor(Date.now() / 1000);
    const text =
      kind === "ics" ? visitEntry(job, { shop: from, appliance: shop?.machine ?? "" }, made) : customerCard(job, from);
    const type = kind === "ics" ? "text/calendar" : "text/vcard";
    if (text.ok) saveFile(`${job.id}.${kind}`, new Blob([text.value], { type }));
    else setWrong(text.issues.map(({ expected }) => expected).join("; "));
  };
  return (
    <section>
      <h2>{words.visit}</h2>
      {visit !== undefined && (
        <p>
          <b>{visit.isCancelled ? words.calledOff : whenText(visit.at)}</b>
        </p>
      )}
      <form className="form" onSubmit={put} noValidate>
        <TextInput size="lg" type="date" name="day" label={words.day} />
        <TextInput size="lg" type="time" name="time" label={words.time} error={wrong} />
        <TextInput size="lg" name="minutes" label={words.minutes} inputMode="numeric" defaultValue="60" />
        <button type="submit" className="big-key low">
          {words.writeVisit}
        </button>
      </form>
      {visit !== undefined && (
        <button type="button" className="big-key quiet low" disabled={shop === undefined} onClick={() => save("ics")}>
          {words.ics}
        </button>
      )}
      {visit !== undefined && !visit.isCancelled && (
        <button
          type="button"
          className="line-key"
          onClick={() => write({ kind: "visit", body: { number: visit.number, cancelled: "yes" } })}
        >
          {words.callOff}
        </button>
      )}
      {account.customer !== undefined && (
        <button type="button" className="big-key quiet low" onClick={() => save("vcf")}>
          {words.vcf}
        </button>
      )}
    </section>
  );
}
