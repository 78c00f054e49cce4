import { useCallback, useEffect, useLayoutEffect, useRef, useState } from "react";
import type { PlanQuestion } from "../../../core/plan/index.ts";
import { unitSign } from "../../words/reading.ts";
import { text } from "../english.ts";
import { useHeightTold } from "../shell/use-height-told.ts";
import { Keypad, RubOut } from "./keypad.tsx";

/**
 * Where readings are typed: under the thumb, the fields always in sight. What is read now stands above them; the keys fold
 * away to let the card be read.
 */
export function ReadingDock(props: {
  readonly questions: readonly PlanQuestion[];
  readonly typed: readonly string[];
  /** Why each cannot be read; empty where it can. */
  readonly faults: readonly string[];
  /** The one that is typed now. */
  readonly at: number;
  readonly setAt: (at: number) => void;
  readonly take: (index: number, value: string) => void;
  /** The keys are out from the start. */
  readonly isNext: boolean;
  readonly send: { readonly says: string; readonly may: boolean };
}) {
  const { questions, typed, faults, at, setAt, take, isNext, send } = props;
  const [isOut, setIsOut] = useState(isNext);
  const told = useHeightTold("--dock");
  const own = useRef<HTMLDivElement>(null);
  // Of themselves the keys never lie over what can hurt here: they fold where the cautions need the room.
  useLayoutEffect(() => {
    const care = document.querySelector(".card .care")?.getBoundingClientRect().bottom ?? 0;
    const dock = own.current;
    if (dock === null || getComputedStyle(dock).position !== "fixed") return;
    if (care > dock.getBoundingClientRect().top) setIsOut(false);
  }, []);
  const dock = useCallback(
    (element: HTMLDivElement | null) => {
      own.current = element;
      return told(element);
    },
    [told],
  );
  const inputs = useRef<(HTMLInputElement | null)[]>([]);
  const before = useRef(at);
  // The keyboard follows the thumb from one reading to the next.
  useEffect(() => {
    if (before.current !== at) inputs.current[at]?.focus();
    before.current = at;
  }, [at]);
  const quantity = questions[at]?.probe?.quantity ?? "ohms";
  const value = typed[at] ?? "";
  const type = (next: string) => take(at, next);
  return (
    <div ref={dock} className={isOut ? "dock out" : "dock"}>
      <div className="dock-line">
        <label htmlFor={`reading-${at}`}>
          {questions.length > 1 && <b className="number">{text.step.nth(at + 1, questions.length)} </b>}
          {questions[at]?.says}
        </label>
        <button type="button" aria-expanded={isOut} onClick={() => setIsOut(!isOut)}>
          {isOut ? text.keypad.fold : text.keypad.out}
        </button>
      </div>
      <p id="reading-fault" className="fault" role="status">
        {faults[at]}
      </p>
      <div className="reading-fields">
        {questions.map((question, index) => (
          <input
            key={question.says}
            id={`reading-${index}`}
            ref={(input) => {
              inputs.current[index] = input;
            }}
            className={index === at ? "reading-input here" : "reading-input"}
            autoComplete="off"
            inputMode="none"
            aria-label={question.says}
            value={typed[index] ?? ""}
            onFocus={() => {
              setAt(index);
              setIsOut(true);
            }}
            onChange={(event) => take(index, event.currentTarget.value)}
            aria-invalid={faults[index] !== ""}
            aria-describedby={index === at ? "reading-fault" : undefined}
          />
        ))}
        <span className="unit" aria-hidden="true">
          {unitSign(quantity)}
        </span>
        {isOut && <RubOut value={value} onChange={type} />}
      </div>
      {isOut && <Keypad quantity={quantity} value={value} onChange={type} send={send} />}
    </div>
  );
}
