import { useRef, useState } from "react";
import { type WrittenEvent, writtenAnswer } from "../../../core/ledger/index.ts";
import { parseShown } from "../../../core/meter/index.ts";
import type { PlanQuestion } from "../../../core/plan/index.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { BranchDrawing } from "./branch-drawing.tsx";
import { Keypad } from "./keypad.tsx";
import { ReadingScale } from "./reading-scale.tsx";

/** Readings of one place: each with its scale, a line for each, one keypad for all. */
export function Readings(props: {
  readonly questions: readonly PlanQuestion[];
  readonly view: JobView;
  readonly record: (says: string, events: readonly WrittenEvent[]) => void;
}) {
  const { questions, view } = props;
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
    props.record(
      typed
        .map((value) => value.trim())
        .filter((value) => value !== "")
        .join(" · "),
      events,
    );
  };
  return (
    <section className="question">
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (ready) record();
        }}
      >
        {/* All of one height, so that the keys stay where they are when the next reading is taken. */}
        <div className="stage">
          {questions.map((question, index) => (
            <div key={question.says} className={index === at ? "here" : undefined}>
              {question.probe?.from !== undefined && question.probe.to !== undefined && (
                <BranchDrawing
                  way={view.ways[question.probe.id] ?? []}
                  from={question.probe.from}
                  to={question.probe.to}
                  odds={odds}
                />
              )}
              <ReadingScale question={question} typed={typed[index] ?? ""} />
            </div>
          ))}
        </div>
        {questions.map((question, index) => (
          <div key={question.says} className={index === at ? "reading here" : "reading"}>
            <label htmlFor={`reading-${index}`}>{question.says}</label>
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
        ))}
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
