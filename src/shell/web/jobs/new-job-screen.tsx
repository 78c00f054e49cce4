import { Button, Stack, Textarea, TextInput } from "@mantine/core";
import { type FormEvent, lazy, Suspense, useRef, useState } from "react";
import { Link, useLocation } from "wouter";
import { type JobHead, type WrittenEvent, writtenHead } from "../../../core/ledger/index.ts";
import { makeReady } from "../engine/client.ts";
import { text } from "../english.ts";
import { useApp } from "../shell/app-state.tsx";
import { FamilyChoice, MachineCard } from "./family-choice.tsx";
import { nextNumber } from "./next-number.ts";

const BranchMaker = lazy(async () => ({ default: (await import("./branch-maker.tsx")).BranchMaker }));

/** Of the demonstration's prices, which hold until the shop has its own. */
const DEMO_CURRENCY = "EUR";
/** Chosen where no family fits. */
const BRANCH = "branch";

/** A job begun in under a minute: which machine, what is said of it; everything else may stay blank. */
export function NewJobScreen() {
  const { ledger, db, settings } = useApp();
  const [, go] = useLocation();
  const [sheet, setSheet] = useState("");
  const [branch, setBranch] = useState<readonly string[]>([]);
  const [wrong, setWrong] = useState<Readonly<Record<string, string>>>({});
  const words = text.newJob;
  const currency = String((settings.own as { readonly currency?: string } | undefined)?.currency ?? DEMO_CURRENCY);
  const form = useRef<HTMLFormElement>(null);

  /** Has the job worked at as far as it is typed, while the rest is being filled in: its first step is then there sooner. */
  const workAhead = (name: string) => {
    if (form.current === null || name === "" || (name === BRANCH && branch.length === 0)) return;
    const typed = typedIn(form.current);
    // No step hangs on the complaint's words, nor on who the customer is: work once begun goes on while they are typed.
    const ofTheMachine = (field: string) => (["age", "watts", "authority"].includes(field) ? typed(field) : "");
    makeReady([writtenHead(headOf("new", name === BRANCH ? { branch } : { sheet: name }, ofTheMachine))]);
  };
  const choose = (name: string) => {
    setSheet(name);
    workAhead(name);
  };

  const begin = async (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault();
    const typed = typedIn(event.currentTarget);
    const faults: Record<string, string> = {};
    if (sheet === BRANCH && branch.length === 0) faults.branch = text.branchJob.need;
    if (sheet === "") faults.sheet = words.needMachine;
    if (typed("complaint") === "") faults.complaint = words.needComplaint;
    if (typed("phone") !== "" && typed("customer") === "") faults.customer = words.needName;
    for (const name of ["age", "watts", "authority"]) {
      if (typed(name) !== "" && !(Number(typed(name).replace(",", ".")) >= 0)) faults[name] = words.badNumber;
    }
    setWrong(faults);
    if (Object.keys(faults).length > 0) return;
    const number = await nextNumber(db);
    const head = headOf(number, sheet === BRANCH ? { branch } : { sheet }, typed);
    const id = await ledger.begin(head, customerOf(typed));
    go(`/job/${id}/next`);
  };

  return (
    <main className="column">
      <p className="way-back">
        <Link href="/">‹ {text.places.jobs}</Link>
      </p>
      <h1>{words.title}</h1>
      <form ref={form} onSubmit={begin} onBlur={() => workAhead(sheet)} noValidate>
        <Stack gap="md">
          <FamilyChoice value={sheet} onChange={choose} error={wrong.sheet}>
            <MachineCard name={BRANCH} title={text.branchJob.other} />
          </FamilyChoice>
          {sheet === BRANCH && (
            <Suspense fallback={<p role="status">{text.opening}</p>}>
              <BranchMaker parts={branch} onChange={setBranch} wrong={wrong.branch} />
            </Suspense>
          )}
          <Textarea size="lg" name="complaint" label={words.complaint} autosize minRows={2} error={wrong.complaint} />
          <TextInput size="lg" name="customer" label={words.customer} error={wrong.customer} autoComplete="off" />
          <div className="side-by-side">
            <TextInput size="lg" name="place" label={words.place} autoComplete="off" />
            <TextInput size="lg" name="phone" label={words.phone} inputMode="tel" autoComplete="off" />
            <TextInput size="lg" name="age" label={words.age} inputMode="decimal" error={wrong.age} />
            {sheet !== BRANCH && (
              <TextInput size="lg" name="watts" label={words.watts} inputMode="decimal" error={wrong.watts} />
            )}
          </div>
          <p className="faint">{words.notKnown}</p>
          <TextInput
            size="lg"
            name="authority"
            label={words.authority(currency)}
            inputMode="decimal"
            error={wrong.authority}
          />
          <Button type="submit" size="lg" className="key">
            {words.start}
          </Button>
        </Stack>
      </form>
    </main>
  );
}

/** What is typed into the fields of a form, by their names. */
function typedIn(form: HTMLFormElement): (name: string) => string {
  const fields = new FormData(form);
  return (name) => String(fields.get(name) ?? "").trim();
}

/** Who has the machine, with a number to ring: only where one is given. */
function customerOf(typed: (name: string) => string): readonly WrittenEvent[] {
  const [name, phone, place] = ["customer", "phone", "place"].map(typed);
  if (name === undefined || phone === undefined || phone === "") return [];
  return [{ kind: "customer", body: { name, lines: place === undefined || place === "" ? [] : [place], phone } }];
}

function headOf(number: string, machine: Pick<JobHead, "sheet" | "branch">, typed: (name: string) => string): JobHead {
  const amount = (name: string): number | undefined =>
    typed(name) === "" ? undefined : Number(typed(name).replace(",", "."));
  const authority = amount("authority");
  const age = amount("age");
  const watts = amount("watts");
  return {
    number,
    ...machine,
    complaint: typed("complaint"),
    customer: typed("customer"),
    place: typed("place"),
    machine: {
      ...(age === undefined ? {} : { age: `${age} years` }),
      ...(watts === undefined || machine.sheet === undefined ? {} : { plate: { "heater.P": `${watts} W` } }),
    },
    ...(authority === undefined ? {} : { authority }),
  };
}
