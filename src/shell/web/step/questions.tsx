import { useRef, useState } from "react";
import { type WrittenEvent, writtenAct, writtenAnswer } from "../../../core/ledger/index.ts";
import type { PlanQuestion, PlanStep } from "../../../core/plan/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { headingOf } from "../../words/step.ts";
import type { JobView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { StepPen } from "../job/job-screen.tsx";
import { Readings } from "./readings.tsx";
import { Tally } from "./tally.tsx";
import { reasonWritten } from "./why-keys.tsx";

/** One answer of a step that asks for more: what was said, and the events that wrote it down. */
interface Gathered {
  readonly says: string;
  readonly ids: readonly string[];
}

/** The place of the readings among a step's answers: they are written down in one go. */
const READINGS = "readings";

/**
 * What a step asks: questions in words have a key an answer, readings are typed all in one go. Each answer is written
 * down at once; what follows from them is worked out after the last, or when the person says it is enough.
 */
export function Questions(props: { readonly step: PlanStep; readonly view: JobView; readonly pen: StepPen }) {
  const { step, view, pen } = props;
  const [gathered, setGathered] = useState<ReadonlyMap<string, Gathered>>(new Map());
  const readings = step.questions.filter(({ observation }) => observation.kind === "reading");
  const rest = step.questions.filter(({ observation }) => observation.kind !== "reading");
  const asked = rest.length + (readings.length > 0 ? 1 : 0);

  const writing = useRef(false);
  const answer = async (place: string, says: string, events: readonly WrittenEvent[]) => {
    if (writing.current) return;
    const before = gathered.get(place);
    const undo = (before?.ids ?? []).map((id) => ({ kind: "withdraws", body: id }));
    // The same key once more takes the answer back.
    const isBack = before?.says === says && place !== READINGS;
    const all = isBack ? undo : [...undo, ...events];
    const others = [...gathered.keys()].filter((key) => key !== place).length;
    const isLast = !isBack && others + 1 >= asked;
    writing.current = true;
    const ids = await (isLast ? pen.write(...all) : pen.gather(...all));
    writing.current = false;
    if (ids === undefined) return;
    const next = new Map(gathered);
    if (isBack) next.delete(place);
    else next.set(place, { says, ids: ids.slice(undo.length) });
    setGathered(next);
  };

  return (
    <>
      {rest.map((question) => (
        <InWords
          key={question.says}
          question={question}
          isTitle={question.says === headingOf(step)}
          given={gathered.get(question.says)?.says}
          answer={(word) =>
            answer(question.says, word, [
              writtenAnswer(question.observation, word),
              ...reasonWritten(step, word === "bad"),
            ])
          }
        />
      ))}
      {readings.length > 0 && (
        <Readings
          questions={readings}
          view={view}
          isNext={rest.length === 0 && step.setUp.every((act) => writtenAct(act) === undefined)}
          record={(says, events) => answer(READINGS, says, events)}
        />
      )}
      {gathered.size > 0 && gathered.size < asked && (
        <section className="question">
          <p role="status">
            {gathered.has(READINGS) && <>{text.step.writtenDown(gathered.get(READINGS)?.says ?? "")} </>}
            {text.step.answered(gathered.size, asked)}
          </p>
          <button type="button" className="big-key quiet" onClick={pen.enough}>
            {text.step.enough}
          </button>
        </section>
      )}
    </>
  );
}

interface InWordsProps {
  readonly question: PlanQuestion;
  /** The step's own sentence asks it already. */
  readonly isTitle: boolean;
  /** The answer that was given, as long as the rest of the step is waited for. */
  readonly given: string | undefined;
  readonly answer: (word: string) => void;
}

function InWords({ question, isTitle, given, answer }: InWordsProps) {
  const { observation } = question;
  if (observation.kind === "count") {
    return (
      <section className="question">
        {!isTitle && <h3>{question.says}</h3>}
        {given === undefined ? (
          <Tally onDone={(good, of) => answer(`${good} of ${of}`)} />
        ) : (
          <button type="button" className="big-key quiet" aria-pressed onClick={() => answer(given)}>
            {given}
          </button>
        )}
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
      {!isTitle && <h3>{question.says}</h3>}
      <div className="keys">
        {words.map(({ word, says }) => (
          <button
            key={word}
            type="button"
            className={given === undefined || given === word ? "big-key" : "big-key quiet"}
            aria-pressed={given === undefined ? undefined : given === word}
            onClick={() => answer(word)}
          >
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

/** How likely an answer is, then the likeliest fault once it is given: beside the fault its odds were read as the fault's. */
function standsFor({ bands }: PlanQuestion, word: string): string {
  const band = bands.find(({ reach }) => typeof reach === "object" && "word" in reach && reach.word === word);
  const first = band?.faults[0];
  return band === undefined || first === undefined ? "" : text.step.standsFor(oddsInWords(band.p), first.says);
}
