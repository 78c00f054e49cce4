import { type FormEvent, useState } from "react";
import type { Party } from "../../../core/money/index.ts";
import { papersText } from "../english-papers.ts";
import type { Write } from "../job/job-screen.tsx";
import { PartyFields, partyTyped } from "./party-fields.tsx";

const words = papersText.people;

/** Somebody by name and address, written into the job as an event of its own. */
export function PartyForm(props: {
  readonly title: string;
  readonly kind: "customer" | "payer";
  readonly party: Party | undefined;
  readonly write: Write;
}) {
  const { title, kind, party, write } = props;
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const [kept, setKept] = useState(false);
  const put = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const { party: body, faults } = partyTyped(new FormData(event.currentTarget));
    setWrong(faults);
    if (Object.keys(faults).length > 0) return;
    setKept((await write({ kind, body })) !== undefined);
  };
  return (
    <section>
      <h2>{title}</h2>
      <form className="form" aria-label={title} onSubmit={put} noValidate>
        <PartyFields party={party} wrong={wrong} isPayer={kind === "payer"} />
        <button type="submit" className="big-key low">
          {words.save}
        </button>
        <p role="status">{kept ? words.saved : ""}</p>
      </form>
    </section>
  );
}
