import "../look/customer.css";
import { Textarea, TextInput } from "@mantine/core";
import { useState } from "react";
import { Link } from "wouter";
import { drawingOf, type Stroke } from "../customer/signature.ts";
import { SignaturePad } from "../customer/signature-pad.tsx";
import { SignatureView } from "../customer/signature-view.tsx";
import { Tick } from "../end/ticks.tsx";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import { customerText } from "../english-customer.ts";
import { canKeepPhotos } from "../photo/shrink-photo.ts";
import { useApp } from "../shell/app-state.tsx";
import { Troubles } from "../shell/troubles.tsx";
import type { RoomProps } from "./closing-screen.tsx";
import { Faults } from "./faults.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.notice;

/** A machine that can hurt somebody and is not repaired: what was found, what was done, read out, signed or refused. */
export function NoticePage(props: RoomProps) {
  const given = props.view.notices.at(-1);
  return (
    <>
      <h1 id="step" tabIndex={-1}>
        {words.title}
      </h1>
      <p>{words.about}</p>
      {given === undefined ? <NoticeForm {...props} /> : <Given {...props} notice={given} />}
    </>
  );
}

function NoticeForm({ job, view, write }: RoomProps) {
  const { db } = useApp();
  const { put, faults } = useCheckedWrite(write);
  const [found, setFound] = useState(() => failedTests(view).join("\n"));
  const [done, setDone] = useState<readonly string[]>([]);
  const [other, setOther] = useState("");
  const [to, setTo] = useState(job.record.head.customer ?? "");
  const [strokes, setStrokes] = useState<readonly Stroke[]>([]);
  const [failed, setFailed] = useState("");
  const lines = found.split("\n").flatMap((line) => (line.trim() === "" ? [] : [line.trim()]));
  const give = (ended: "signed" | "refused to sign" | "left with the customer", signature?: string) =>
    put({
      kind: "notice",
      body: {
        found: lines,
        done: [...done, ...(other.trim() === "" ? [] : [other.trim()])],
        ended,
        ...(to.trim() === "" ? {} : { to: to.trim() }),
        ...(signature === undefined ? {} : { signature }),
      },
    });
  const sign = async () => {
    try {
      const drawing = await drawingOf(strokes);
      // The drawing first: an event never names what is not there.
      await db.photos.put(drawing);
      await give("signed", drawing.hash);
    } catch (error) {
      setFailed(error instanceof Error ? error.message : String(error));
    }
  };
  const isBare = lines.length === 0;
  return (
    <div className="form">
      <Textarea
        size="lg"
        label={words.found}
        autosize
        minRows={3}
        value={found}
        onChange={(event) => setFound(event.currentTarget.value)}
      />
      <section>
        <h2>{words.done}</h2>
        <ul className="verify">
          {words.acts.map((act) => (
            <li key={act}>
              <Tick
                says={act}
                done={done.includes(act)}
                onPress={() => setDone(done.includes(act) ? done.filter((one) => one !== act) : [...done, act])}
              />
            </li>
          ))}
        </ul>
        <TextInput
          size="lg"
          label={words.other}
          value={other}
          onChange={(event) => setOther(event.currentTarget.value)}
        />
      </section>
      <TextInput size="lg" label={words.to} value={to} onChange={(event) => setTo(event.currentTarget.value)} />
      {isBare && <p>{words.needFound}</p>}
      {canKeepPhotos() && (
        <div>
          <SignaturePad strokes={strokes} onChange={setStrokes} />
          <button type="button" className="small-key" disabled={strokes.length === 0} onClick={() => setStrokes([])}>
            {customerText.clear}
          </button>
          <button type="button" className="big-key" disabled={isBare || strokes.length === 0} onClick={sign}>
            {words.signed}
          </button>
        </div>
      )}
      <Troubles refused={failed} />
      <Faults faults={faults} />
      <button type="button" className="big-key quiet" disabled={isBare} onClick={() => give("refused to sign")}>
        {words.refused}
      </button>
      <button type="button" className="big-key quiet" disabled={isBare} onClick={() => give("left with the customer")}>
        {words.left}
      </button>
    </div>
  );
}

/** The notice as it was given; it is taken back in the job's history like anything else. */
function Given({ id, notice }: RoomProps & { readonly notice: ClosingView["notices"][number] }) {
  const { found, done, ended, to, signature } = notice;
  return (
    <>
      <p role="status">
        <b>{words.given}</b>
      </p>
      <ul>
        {[...found, ...done].map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p>{[to, ended].filter((one) => one !== undefined).join(": ")}</p>
      {signature !== undefined && <SignatureView hash={signature} who={to} />}
      <Link className="big-key" href={`/job/${id}/done`}>
        {words.endJob}
      </Link>
    </>
  );
}

/** What the tests found already, to begin the list with. */
function failedTests({ tests }: ClosingView): readonly string[] {
  return tests
    .filter(({ says }) => says === "fail")
    .map(({ name, measured, limit }) => [name, measured, limit === undefined ? undefined : `(${limit})`])
    .map((pieces) => pieces.filter((piece) => piece !== undefined).join(" "));
}
