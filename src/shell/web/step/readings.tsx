import { useEffect, useRef, useState } from "react";
import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import { parseShown } from "../../../core/meter/index.ts";
import type { PlanQuestion } from "../../../core/plan/index.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { QuestionShows } from "./question-shows.tsx";
import { ReadingDock } from "./reading-dock.tsx";

/**
 * Readings of one place: what each would show, and at the foot of the screen one field for each and one keypad for all.
 * The keys are out from the start where nothing else is to be done first.
 */
export function Readings(props: {
  readonly questions: readonly PlanQuestion[];
  readonly view: JobView;
  readonly isNext: boolean;
  readonly record: (says: string, events: readonly WrittenEvent[]) => void;
}) {
  const { questions, view, isNext } = props;
  const [typed, setTyped] = useState<readonly string[]>(questions.map(() => ""));
  const [at, setAt] = useState(0);
  const faults = questions.map((question, index) => faultIn(question, typed[index] ?? ""));
  const blankAfter = typed.findIndex((value, index) => index > at && value.trim() === "");
  /** Several readings typed into one field are dealt out in order: "26 ol 3k8". */
  const take = (index: number, value: string) => {
    const words = value.trim().split(/\s+/);
    const isDealt =
      words.length > 1 && questions.length - index > 1 && words.every((word) => readable(questions[index], word));
    setTyped(typed.map((old, i) => (isDealt ? (words[i - index] ?? old) : i === index ? value : old)));
  };
  const stage = useRef<HTMLDivElement>(null);
  const isTyping = (typed[at] ?? "") !== "";
  // What the reading says is looked at while it is typed.
  useEffect(() => {
    if (isTyping) stage.current?.scrollIntoView({ block: "nearest" });
  }, [isTyping]);
  const isReadable = faults.every((fault) => fault === "");
  const send =
    blankAfter >= 0
      ? { says: text.keypad.next, may: faults[at] === "" }
      : { says: text.step.record, may: isReadable && typed.some((value) => value.trim() !== "") };
  const record = () => {
    const shown = typed.map((value) => value.trim());
    const events = questions.flatMap(({ observation }, index): WrittenEvent[] =>
      shown[index] === "" ? [] : [writtenAnswer(observation, shown[index])],
    );
    props.record(shown.filter((value) => value !== "").join(" · "), events);
  };
  return (
    <section className="question">
      {/* All of one height, so that nothing moves when the next reading is taken. */}
      <div className="stage" ref={stage}>
        {questions.map((question, index) => (
          <div key={question.says} className={index === at ? "here" : undefined}>
            <QuestionShows question={question} view={view} typed={typed[index] ?? ""} />
          </div>
        ))}
      </div>
      {questions.length > 1 && <p className="faint">{text.step.skip}</p>}
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (!send.may) return;
          if (blankAfter < 0) record();
          else setAt(blankAfter);
        }}
      >
        <ReadingDock
          questions={questions}
          typed={typed}
          faults={faults}
          at={at}
          setAt={setAt}
          take={take}
          isNext={isNext}
          send={send}
        />
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
