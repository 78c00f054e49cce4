import "../look/papers.css";
import { FileButton, Radio, Textarea, TextInput } from "@mantine/core";
import { type FormEvent, useCallback, useMemo, useState } from "react";
import { nextNumber } from "../../../core/bill/index.ts";
import { sentence } from "../../../core/issue/index.ts";
import type { IssuedPaper } from "../../../core/ledger/index.ts";
import { readOwnShop } from "../../../core/remedy/index.ts";
import { papersText } from "../english-papers.ts";
import { useApp } from "../shell/app-state.tsx";
import { useLive } from "../shell/use-live.ts";
import { ownTyped } from "./own-typed.ts";
import { PartyFields } from "./party-fields.tsx";
import { prefixOf, seriesOf } from "./series.ts";

const words = papersText.own;
const LOGO_BYTES = 200_000;

/** Who the shop is on its papers, what it charges, and how this device counts its invoices. */
export function OwnShopForm() {
  const { settings, change } = useApp();
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const [said, setSaid] = useState("");
  const kept = useMemo(() => {
    const read = settings.own === undefined ? undefined : readOwnShop(JSON.stringify(settings.own));
    return read?.ok === true ? read.value : undefined;
  }, [settings.own]);
  const letterhead = kept?.letterhead;
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const { own, faults } = ownTyped(form);
    const read = readOwnShop(JSON.stringify(own));
    setWrong(faults);
    // What stands at its own field is not told again below in the words of a file.
    const untold = read.ok ? [] : read.issues.filter(({ at }) => !Object.hasOwn(faults, String(at[0])));
    setSaid(untold.map(sentence).join("\n"));
    if (!read.ok || Object.keys(faults).length > 0) return;
    const prefix = String(form.get("prefix") ?? "").trim();
    const first = Math.max(1, Math.round(Number(form.get("first") ?? settings.series?.first ?? 1)) || 1);
    await change({ own, series: { prefix: prefix === "" ? prefixOf(settings) : prefix, first } });
    setSaid(words.saved);
  };
  const text = (name: string, label: string, value: string | number | undefined, mode?: "decimal" | "numeric") => (
    <TextInput
      size="lg"
      name={name}
      label={label}
      defaultValue={value ?? ""}
      inputMode={mode}
      error={wrong[name]}
      autoComplete="off"
    />
  );
  return (
    <section id="shop">
      <h2>{words.title}</h2>
      {kept === undefined && <p>{words.none}</p>}
      <form className="form" aria-label={words.title} onSubmit={put} noValidate>
        <PartyFields party={letterhead?.party} wrong={wrong} nameSays={words.name} />
        {text("vat id", words.vatId, letterhead?.party.vatId)}
        {text("tax number", words.taxNumber, letterhead?.party.taxNumber)}
        {text("registration", words.registration, letterhead?.registration)}
        {text("holder", words.holder, letterhead?.bank?.holder)}
        {text("account", words.account, letterhead?.bank?.account)}
        {text("bic", words.bic, letterhead?.bank?.bic)}
        <p>{words.prices}</p>
        {text("currency", words.currency, kept?.currency ?? "EUR")}
        {text("vat", words.vat, kept === undefined ? 19 : kept.vat.hundredths / 100, "decimal")}
        {text("reason", words.vatReason, kept?.vat.reason)}
        {text("per hour", words.perHour, kept?.perHour, "decimal")}
        {text("call-out", words.callOut, kept?.callOut, "decimal")}
        {text("diagnosis", words.diagnosis, kept?.diagnosis, "decimal")}
        {text("due days", words.dueDays, kept?.dueDays ?? 14, "numeric")}
        {text("guarantee new", words.guaranteeNew, kept?.guaranteeMonths?.new, "numeric")}
        {text("guarantee used", words.guaranteeUsed, kept?.guaranteeMonths?.used, "numeric")}
        {text("deposit", words.deposit, Math.round((kept?.deposit ?? 0) * 100), "decimal")}
        <Textarea
          size="lg"
          name="bands"
          label={words.bands}
          placeholder={words.bandsShape}
          autosize
          minRows={2}
          defaultValue={kept?.bands.map(({ toMinutes, price }) => `${toMinutes} ${price}`).join("\n") ?? ""}
          error={wrong.bands}
        />
        <Numbers />
        <button type="submit" className="big-key">
          {words.save}
        </button>
        <pre className="said" role="status">
          {said}
        </pre>
      </form>
      <Mark />
      <Radio.Group
        label={words.size}
        value={settings.size ?? "A4"}
        onChange={(size) => change({ size: size as "A4" | "LETTER" })}
        size="lg"
      >
        <div className="choices">
          {Object.entries(words.sizes).map(([value, says]) => (
            <Radio key={value} value={value} label={says} size="lg" />
          ))}
        </div>
      </Radio.Group>
    </section>
  );
}

/** How this device counts: what its numbers begin with, and what comes next. */
function Numbers() {
  const { db, settings } = useApp();
  const given = useLive(useCallback(() => db.events.where("kind").equals("issued").toArray(), [db]));
  const series = seriesOf("invoice", settings, false);
  if (given === undefined || series === undefined) return null;
  const numbers = given.flatMap(({ body }) => {
    const { paper, number } = body as IssuedPaper;
    return paper === "invoice" && number.startsWith(series.prefix) ? [number] : [];
  });
  return (
    <>
      <TextInput size="lg" name="prefix" label={words.prefix} defaultValue={series.prefix} autoComplete="off" />
      <p>{words.prefixAbout}</p>
      {numbers.length === 0 ? (
        <TextInput size="lg" name="first" label={words.first} inputMode="numeric" defaultValue={series.first ?? 1} />
      ) : (
        <p>{words.goesOn}</p>
      )}
      <p className="number">{words.next(nextNumber(series, numbers))}</p>
    </>
  );
}

/** The shop's mark. */
function Mark() {
  const { settings, change } = useApp();
  const [wrong, setWrong] = useState("");
  const { logo } = settings;
  const take = async (file: File | null) => {
    if (file === null) return;
    setWrong(file.size > LOGO_BYTES ? words.logoLarge : "");
    if (file.size > LOGO_BYTES) return;
    if (file.type === "image/svg+xml") await change({ logo: await file.text() });
    else await change({ logo: await asDataAddress(file) });
  };
  return (
    <div className="form">
      <p>{words.logo}</p>
      {logo !== undefined && (
        <img
          className="own-mark"
          alt=""
          src={logo.startsWith("data:") ? logo : `data:image/svg+xml,${encodeURIComponent(logo)}`}
        />
      )}
      <FileButton onChange={take} accept="image/svg+xml,image/png,image/jpeg">
        {(props) => (
          <button type="button" className="big-key quiet low" {...props}>
            {words.logoChoose}
          </button>
        )}
      </FileButton>
      {logo !== undefined && (
        <button type="button" className="line-key" onClick={() => change({ logo: undefined })}>
          {words.logoAway}
        </button>
      )}
      <p role="alert">{wrong}</p>
    </div>
  );
}

function asDataAddress(file: Blob): Promise<string> {
  return new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.onload = () => resolve(String(reader.result));
    reader.onerror = () => reject(reader.error);
    reader.readAsDataURL(file);
  });
}
