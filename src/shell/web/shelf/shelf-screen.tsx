import "../look/papers.css";
import { useCallback } from "react";
import { Link } from "wouter";
import type { OrderLine, ShelfItem, ShelfPlace, Stocked } from "../../../core/shelf/index.ts";
import { text } from "../english.ts";
import { shelfText } from "../english-shelf.ts";
import { useApp } from "../shell/app-state.tsx";
import { Folded } from "../shell/folded.tsx";
import { Troubles } from "../shell/troubles.tsx";
import { AddParts } from "./add-parts.tsx";
import { StockHistory } from "./stock-history.tsx";
import { STOCK, useShelf } from "./use-shelf.ts";

const words = shelfText;
const PLACES: readonly ShelfPlace[] = ["van", "bench", "store"];

/** What is to be ordered, and where the stock lies: new parts by their count, tested parts by their record. */
export function ShelfScreen() {
  const { ledger } = useApp();
  const { ground, view, thinking, issues } = useShelf();
  const put = useCallback(
    async (stocked: Stocked) => {
      await ledger.write(STOCK, { kind: "stocked", body: stocked });
    },
    [ledger],
  );
  const write = async (line: OrderLine, kind: "ordered" | "arrived") => {
    for (const number of line.jobs) {
      const job = ground?.jobs.find((one) => one.number === number);
      const body = kind === "ordered" ? { part: line.part, says: line.says } : line.part;
      if (job !== undefined) await ledger.write(job.id, { kind, body });
    }
  };
  return (
    <main className="column">
      <p className="way-back">
        <Link href="/">‹ {text.places.jobs}</Link>
      </p>
      <h1>{words.title}</h1>
      <p>{words.about}</p>
      <Troubles issues={issues} />
      <p role="status" className="papers-working">
        {thinking && issues.length === 0 ? words.working : ""}
      </p>
      {view !== undefined && ground !== undefined && (
        <fieldset className="plain" disabled={thinking}>
          <section>
            <h2>{words.toOrder}</h2>
            {view.lines.length === 0 && <p>{words.nothing}</p>}
            <ul className="ledger">
              {view.lines.map((line) => (
                <Order key={`${line.part} ${line.says} ${line.ordered}`} line={line} write={write} />
              ))}
            </ul>
            {view.lacking.map(({ part, job }) => (
              <p key={`${job} ${part}`} className="trouble">
                {words.lacking(part, job)}
              </p>
            ))}
          </section>
          {PLACES.map((place) => (
            <section key={place}>
              <h2>{words.places[place]}</h2>
              {view.items.every(({ where, count: lying }) => where !== place || lying === 0) && <p>{words.empty}</p>}
              <ul className="ledger">
                {view.items.map((item) => {
                  if (item.where !== place || (item.count === 0 && item.least === 0)) return null;
                  const { record, part, says } = item;
                  if (record !== undefined) return <TestedPart key={record} item={item} id={record} />;
                  return (
                    <NewParts
                      key={`${part} ${says}`}
                      item={item}
                      change={(by) => put({ part, says, where: place, by })}
                    />
                  );
                })}
              </ul>
            </section>
          ))}
          <AddParts add={put} />
          <Folded says={words.history}>
            <StockHistory stock={ground.stock} />
          </Folded>
        </fieldset>
      )}
    </main>
  );
}

function Order(props: {
  readonly line: OrderLine;
  readonly write: (line: OrderLine, kind: "ordered" | "arrived") => void;
}) {
  const { line, write } = props;
  const { count, jobs, ordered } = line;
  const part = partSays(line.part);
  return (
    <li className="paper-line">
      <b>{words.orderLine(count, part)}</b>
      <span className="faint">
        {[line.says, ...(jobs.length === 0 ? [] : [words.forJobs(jobs)]), ...(ordered ? [words.ordered] : [])].join(
          " · ",
        )}
      </span>
      {jobs.length > 0 && (
        <button type="button" className="line-key" onClick={() => write(line, ordered ? "arrived" : "ordered")}>
          {ordered ? words.arrived(part) : words.order(part)}
        </button>
      )}
    </li>
  );
}

function NewParts({ item, change }: { readonly item: ShelfItem; readonly change: (by: number) => void }) {
  return (
    <li className="stock-line">
      <span>
        <b>{item.says}</b>
        <span className="faint sums">
          {partSays(item.part)}
          {item.least > 0 && ` · ${words.atLeast(item.least)}`}
        </span>
      </span>
      <button type="button" className="count-key" aria-label={words.one.less(item.says)} onClick={() => change(-1)}>
        −
      </button>
      <span className="number" role="status">
        {item.count}
      </span>
      <button type="button" className="count-key" aria-label={words.one.more(item.says)} onClick={() => change(1)}>
        +
      </button>
    </li>
  );
}

/** A tested part, with the grade that its bench record gives it. */
function TestedPart({ item, id }: { readonly item: ShelfItem; readonly id: string }) {
  return (
    <li>
      <Link href={`/bench/${id}`} className="paper-line">
        <b>{item.says}</b>
        <span className="faint">
          {[item.tag?.shows, item.tag && words.grades[item.tag.grade]].filter(Boolean).join(" · ")}
        </span>
      </Link>
    </li>
  );
}

function partSays(part: string): string {
  return part.replaceAll("-", " ");
}
