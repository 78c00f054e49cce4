import { Radio, TextInput } from "@mantine/core";
import { useState } from "react";
import { closingText } from "../english-closing.ts";
import { Folded } from "../shell/folded.tsx";
import type { RoomProps } from "./closing-screen.tsx";
import { Faults } from "./faults.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.proof.strengths;

/** Proved here, for the customer to prove, not proved: all three are named, whatever stands in them. */
export function Strengths(props: RoomProps) {
  const { view, takeBack, write } = props;
  const asked = view.unproved.filter((one) => one.asked !== undefined);
  const never = view.unproved.filter((one) => one.asked === undefined);
  const line = (key: string, says: string, place: number) => (
    <li key={key}>
      <span>{says}</span>
      <button type="button" className="small-key" onClick={() => takeBack(place)}>
        {closingText.tests.takeBack}
        <span className="unseen"> {says}</span>
      </button>
    </li>
  );
  return (
    <section>
      <h2>{words.title}</h2>
      <h3>{words.here}</h3>
      {view.proved.length === 0 ? (
        <p>{words.nothingHere}</p>
      ) : (
        <ul className="proved">{view.proved.map((one) => line(`${one.kind} ${one.event}`, one.says, one.event))}</ul>
      )}
      <h3>{words.customer}</h3>
      {asked.length === 0 ? (
        <p>{words.nothingAsked}</p>
      ) : (
        <ul className="proved">
          {asked.map(({ place, what, why, asked: what_, days }) => {
            const within = days === undefined ? "" : `, ${words.withinDays(days)}`;
            return line(String(place), `${what}: ${words.askedFor[what_ ?? "call"]}${within} (${why})`, place);
          })}
        </ul>
      )}
      <h3>{words.not}</h3>
      {never.length === 0 ? (
        <p>{view.proved.length === 0 ? words.holds : words.nothingNot}</p>
      ) : (
        <ul className="proved">
          {never.map(({ place, what, why }) => line(String(place), `${what} (${why})`, place))}
        </ul>
      )}
      <Folded says={words.add}>
        <Unproved view={view} write={write} />
      </Folded>
    </section>
  );
}

function Unproved({ view, write }: Pick<RoomProps, "view" | "write">) {
  const empty = { what: "", why: "", asked: "picture", days: "3" };
  const [form, setForm] = useState(empty);
  const { put, faults } = useCheckedWrite(write);
  const fetching = `${view.secondVisit.toFixed(0)} ${view.currency}`;
  const isAsked = form.asked !== "nothing";
  const record = async () => {
    const days = isAsked && form.days.trim() !== "" ? { days: Number(form.days) } : {};
    const asked = isAsked ? { asked: form.asked } : {};
    if (await put({ kind: "unproved", body: { what: form.what.trim(), why: form.why.trim(), ...asked, ...days } }))
      setForm(empty);
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        record();
      }}
    >
      {(["what", "why"] as const).map((key) => (
        <TextInput
          key={key}
          size="lg"
          label={words[key]}
          value={form[key]}
          onChange={(event) => setForm({ ...form, [key]: event.currentTarget.value })}
        />
      ))}
      <Radio.Group label={words.asked} size="lg" value={form.asked} onChange={(asked) => setForm({ ...form, asked })}>
        <div className="choices">
          {Object.entries(words.asks).map(([value, says]) => (
            <Radio key={value} size="lg" value={value} label={says(fetching)} />
          ))}
        </div>
      </Radio.Group>
      {isAsked && (
        <TextInput
          size="lg"
          inputMode="numeric"
          label={words.days}
          value={form.days}
          onChange={(event) => setForm({ ...form, days: event.currentTarget.value })}
        />
      )}
      <Faults faults={faults} />
      <button type="submit" className="big-key" disabled={form.what.trim() === "" || form.why.trim() === ""}>
        {words.write}
      </button>
    </form>
  );
}
