import { useRef, useState } from "react";
import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import { parseShown } from "../../../core/meter/index.ts";
import type { PlanQuestion, PlanStep } from "../../../core/plan/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";
import { BranchDrawing } from "./branch-drawing.tsx";
import { Keypad } from "./keypad.tsx";
import { ReadingScale } from "./reading-scale.tsx";
import { Tally } from "./tally.tsx";

/** What a step asks: questions in words have a key an answer, readings are typed all in one go. */
export function Questions(props: { readonly step: PlanStep; readonly view: JobView; readonly write: Write }) {
  const { step, view, write } = props;
  const readings = step.questions.filter(({ observation }) => observation.kind === "reading");
  const rest = step.questions.filter(({ observation }) => observation.kind !== "reading");
  return (
    <>
      {rest.map((question) => (
        <InWords key={question.says} question={question} write={write} />
      ))}
      {readings.length > 0 && <Readings questions={readings} view={view} write={write} />}
    </>
  );
}

function InWords({ question, write }: { readonly question: PlanQuestion; readonly write: Write }) {
  const { observation } = question;
  const answer = (word: string) => write(writtenAnswer(observation, word));
  if (observation.kind === "count") {
    return (
      <section className="question">
        <h3>{question.says}</h3>
        <Tally onDone={(good, of) => answer(`${good} of ${of}`)} />
      </section>
    );
  }
  const words =
    observation.kind === "look"
      ? [
          { word: "bad", says: text.step.looksBad },
          { word: "good", says: text.step.looksGood },
        ]
      : answersOf(question).map((word) => ({ word, says: word }));
  return (
    <section className="question">
      <h3>{question.says}</h3>
      <div className="keys">
        {words.map(({ word, says }) => (
          <button key={word} type="button" className="big-key" onClick={() => answer(word)}>
            <span>{says}</span>
            <small>{standsFor(question, word)}</small>
          </button>
        ))}
      </div>
    </section>
  );
}

function answersOf({ bands }: PlanQuestion): string[] {
  return bands.flatMap(({ reach }) => (typeof reach === "object" && "word" in reach ? [reach.word] : []));
}

/** The likeliest fault that an answer would speak for. */
function standsFor({ bands }: PlanQuestion, word: string): string {
  const band = bands.find(({ reach }) => typeof reach === "object" && "word" in reach && reach.word === word);
  const first = band?.faults[0];
  return band === undefined || first === undefined ? "" : `${first.says}, ${oddsInWords(band.p)}`;
}

/** Readings of one place: each with its scale, a line for each, one keypad for all. */
function Readings(props: {
  readonly questions: readonly PlanQuestion[];
  readonly view: JobView;
  readonly write: Write;
}) {
  const { questions, view, write } = props;
  const odds = new Map(view.belief.parts.map(({ part, p }) => [part, p]));
  const [typed, setTyped] = useState<readonly string[]>(questions.map(() => ""));
  const [at, setAt] = useState(0);
  const inputs = useRef<(HTMLInputElement | null)[]>([]);
  const faults = questions.map((question, index) => faultIn(question, typed[index] ?? ""));
  const set = (index: number, value: string) => setTyped(typed.map((old, i) => (i === index ? value : old)));
  const next = () => {
    const to = Math.min(at + 1, questions.length - 1);
    setAt(to);
    inputs.current[to]?.focus();
  };
  /** Several readings typed into one line are dealt out in order: "26 ol 3k8". */
  const take = (index: number, value: string) => {
    const words = value.trim().split(/\s+/);
    if (words.length > 1 && questions.length - index > 1 && words.every((word) => readable(questions[index], word))) {
      setTyped(typed.map((old, i) => words[i - index] ?? old));
    } else set(index, value);
  };
  const ready = typed.some((value) => value.trim() !== "") && faults.every((fault) => fault === "");
  const record = () => {
    const events: WrittenEvent[] = questions.flatMap((question, index) => {
      const value = (typed[index] ?? "").trim();
      return value === "" ? [] : [writtenAnswer(question.observation, value)];
    });
    return write(...events);
  };
  return (
    <section className="question">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) record();
        }}
      >
        {questions.map((question, index) => {
          const { probe } = question;
          return (
            <div key={question.says} className={index === at ? "reading here" : "reading"}>
              <label htmlFor={`reading-${index}`}>{question.says}</label>
              {probe?.from !== undefined && probe.to !== undefined && (
                <BranchDrawing way={view.ways[probe.id] ?? []} from={probe.from} to={probe.to} odds={odds} />
              )}
              <ReadingScale question={question} typed={typed[index] ?? ""} />
              <input
                id={`reading-${index}`}
                ref={(input) => {
                  inputs.current[index] = input;
                }}
                className="reading-input"
                autoComplete="off"
                inputMode="none"
                value={typed[index] ?? ""}
                onFocus={() => setAt(index)}
                onChange={(event) => take(index, event.currentTarget.value)}
                aria-invalid={faults[index] !== ""}
                aria-describedby={`reading-${index}-fault`}
              />
              <p id={`reading-${index}-fault`} className="fault" role="status">
                {faults[index]}
              </p>
            </div>
          );
        })}
        {questions.length > 1 && <p className="faint">{text.step.skip}</p>}
        <Keypad
          quantity={questions[at]?.probe?.quantity ?? "ohms"}
          value={typed[at] ?? ""}
          onChange={(value) => set(at, value)}
          onNext={at < questions.length - 1 ? next : undefined}
        />
        <button type="submit" className="big-key" disabled={!ready}>
          {text.step.record}
        </button>
      </form>
    </section>
  );
}

function readable({ probe }: PlanQuestion, word: string): boolean {
  return parseShown(word, probe?.quantity ?? "number").ok;
}

function faultIn(question: PlanQuestion, value: string): string {
  if (value.trim() === "" || readable(question, value)) return "";
  const read = parseShown(value, question.probe?.quantity ?? "number");
  const hint = read.ok ? undefined : read.issues[0]?.hint;
  return hint === undefined ? text.step.unread(value) : `${text.step.unread(value)}. ${hint}`;
}
