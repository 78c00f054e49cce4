import { TextInput } from "@mantine/core";
import { useState } from "react";
import { useLocation } from "wouter";
import type { ChoicesView } from "../engine/choices-view.ts";
import { customerText } from "../english-customer.ts";
import type { Write } from "../job/job-screen.tsx";
import { canKeepPhotos } from "../photo/shrink-photo.ts";
import { useApp } from "../shell/app-state.tsx";
import { Troubles } from "../shell/troubles.tsx";
import { offeredBy } from "./offered.ts";
import { drawingOf, type Stroke } from "./signature.ts";
import { SignaturePad } from "./signature-pad.tsx";

const words = customerText;

/** One answer, told whole, and under it the signature; refusing to sign is an answer too. */
export function SignPage(props: {
  readonly id: string;
  readonly view: ChoicesView;
  readonly answer: "accepted" | "declined";
  /** Of the choice, as the address bears it; `all` of them. */
  readonly address: string;
  readonly write: Write;
}) {
  const { id, view, answer, address, write } = props;
  const { db } = useApp();
  const [, go] = useLocation();
  const [who, setWho] = useState(view.customer ?? "");
  const [strokes, setStrokes] = useState<readonly Stroke[]>([]);
  const [failed, setFailed] = useState("");
  const row = view.rows.find((one) => one.address === address);
  if (row === undefined && address !== "all") return <p className="trouble">{words.gone}</p>;

  const decide = async (signed?: string) => {
    const name = who.trim();
    const body = {
      choice: row?.id ?? "all",
      ...(name === "" ? {} : { who: name }),
      ...(signed === undefined ? {} : { signed }),
    };
    if ((await write(offeredBy(view), { kind: answer, body })) !== undefined) go(`/choices/${id}`, { replace: true });
  };
  const sign = async () => {
    try {
      const drawing = await drawingOf(strokes);
      // The drawing first: an event never names what is not there.
      await db.photos.put(drawing);
      await decide(drawing.hash);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  return (
    <>
      <h1>{words.signTitle[answer]}</h1>
      <p className="signed-for">{row === undefined ? words.declinesAll : words.atPrice(row.says, row.pays)}</p>
      {row?.deposit !== undefined && <p>{words.deposit(row.deposit)}</p>}
      {row?.cured !== undefined && (
        <p>
          {words.columns.cured}: {row.cured.says}
          {row.back !== undefined && ` · ${words.columns.back} ${words.within(row.back.months)}: ${row.back.says}`}
        </p>
      )}
      {row?.notes.map((note) => (
        <p key={note}>{note}</p>
      ))}
      <p className="faint">{words.expected}</p>
      <TextInput size="lg" label={words.who} value={who} onChange={(event) => setWho(event.currentTarget.value)} />
      {canKeepPhotos() ? (
        <>
          <SignaturePad strokes={strokes} onChange={setStrokes} />
          <button type="button" className="small-key" disabled={strokes.length === 0} onClick={() => setStrokes([])}>
            {words.clear}
          </button>
          <button type="button" className="big-key" disabled={strokes.length === 0} onClick={sign}>
            {words.sign}
          </button>
        </>
      ) : (
        <p>{words.notHere}</p>
      )}
      <Troubles refused={failed} />
      <button type="button" className="big-key quiet" onClick={() => decide()}>
        {answer === "accepted" ? words.without : words.withoutDeclined}
      </button>
      <button type="button" className="big-key quiet" onClick={() => decide("refused to sign")}>
        {words.refused}
      </button>
    </>
  );
}
