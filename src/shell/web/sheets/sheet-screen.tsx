import { lazy, useEffect, useState } from "react";
import { Link } from "wouter";
import type { Shown } from "../circuit/branch-rows.tsx";
import { askEngine } from "../engine/client.ts";
import type { Answered } from "../engine/protocol.ts";
import type { SheetView } from "../engine/sheet-view.ts";
import { text } from "../english.ts";
import { Folded } from "../shell/folded.tsx";
import { GoodValues } from "./good-values.tsx";
import { SlotChoice } from "./slot-choice.tsx";
import { Testability } from "./testability.tsx";

const BranchRows = lazy(async () => ({ default: (await import("../circuit/branch-rows.tsx")).BranchRows }));
/** A sheet alone has no odds and no step. */
const nothingShown: Shown = { odds: new Map(), live: new Set(), marks: new Set() };

/** One wiring sheet: which machine of the family, its parts, its connectors, what a good one shows. */
export function SheetScreen({ name }: { readonly name: string }) {
  const [answers, setAnswers] = useState<Answered>({});
  const [view, setView] = useState<SheetView>();
  const [clash, setClash] = useState(false);
  const words = text.sheets;
  useEffect(() => {
    let current = true;
    askEngine({ do: "sheet", name, answers }, "sheet").then((found) => {
      if (!current) return;
      setClash(found === undefined);
      if (found !== undefined) setView(found);
    });
    return () => {
      current = false;
    };
  }, [name, answers]);
  if (view === undefined) {
    return (
      <main className="column">
        <p role="status">{words.reading}</p>
      </main>
    );
  }
  const which = `${name} ${JSON.stringify(view.choice)}`;
  return (
    <main className="column">
      <p className="way-back">
        <Link href="/sheets">‹ {words.title}</Link>
      </p>
      <h1>{view.title}</h1>
      <p className="faint">
        {view.supply} · {words.counts(view.ways, view.signs.length)}
        {view.source === undefined ? "" : ` · ${view.source}`}
      </p>
      {clash && (
        <p className="trouble" role="alert">
          {words.clash}
        </p>
      )}
      <section>
        <h2>{words.which}</h2>
        {view.slots.map((slot) => (
          <SlotChoice
            key={slot.id}
            slot={slot}
            chosen={view.choice[slot.id]}
            told={answers[slot.id] !== undefined}
            choose={(variant) => setAnswers({ ...answers, [slot.id]: variant })}
          />
        ))}
      </section>
      <section>
        <h2>{text.circuit.title}</h2>
        <Folded says={text.circuit.show}>
          <BranchRows branches={view.branches} shown={nothingShown} />
        </Folded>
      </section>
      <section>
        <h2>{words.parts}</h2>
        {view.groups.map((group) => (
          <details key={group.says}>
            <summary>
              {group.says === "" ? words.anywhere : group.says} ({group.parts.length})
            </summary>
            <ul className="ledger">
              {group.parts.map((part) => (
                <li key={part.id} className="part">
                  <b>{part.says}</b> <span className="faint">{part.source}</span>
                  <dl className="ratings">
                    {part.ratings.map(({ name: rating, value, source }) => (
                      <div key={rating}>
                        <dt>{rating}</dt>
                        <dd>
                          {value} {source !== part.source && <span className="faint">{source}</span>}
                        </dd>
                      </div>
                    ))}
                  </dl>
                </li>
              ))}
            </ul>
          </details>
        ))}
      </section>
      <section>
        <h2>{words.plugs}</h2>
        {view.plugs.map(({ id, says, pins }) => (
          <details key={id}>
            <summary>
              {id}, {says}
            </summary>
            <ol className="pins">
              {pins.map(({ pin, colour }) => (
                <li key={pin}>
                  <b className="number">{pin}</b> {colour}
                </li>
              ))}
            </ol>
          </details>
        ))}
      </section>
      <GoodValues key={`v ${which}`} name={name} answers={view.choice} />
      <Testability key={`t ${which}`} name={name} answers={view.choice} />
      <section>
        <h2>{words.signs}</h2>
        <details>
          <summary>{words.signsCount(view.signs.length)}</summary>
          <ul>
            {view.signs.map((sign) => (
              <li key={sign}>{sign}</li>
            ))}
          </ul>
        </details>
      </section>
    </main>
  );
}
