import { lazy } from "react";
import { renderSVG } from "uqr";
import { Link } from "wouter";
import { dayText } from "../../../core/day/index.ts";
import { text } from "../english.ts";
import { Folded } from "../shell/folded.tsx";
import { localDay } from "../shell/today.ts";
import { useBench } from "./use-bench.ts";
import { gradeInWords } from "./words.ts";

const TagPaper = lazy(async () => ({ default: (await import("./tag-paper.tsx")).TagPaper }));

/** The tag of a part: number, what it is, its grade, and a code that opens its record on this shop's devices. */
export function TagScreen({ id }: { readonly id: string }) {
  const { record, view } = useBench(id);
  const told = Object.entries(record?.head.part?.ratings ?? {});
  const inFull = (name: string) => {
    const rating = view?.ratings.find((one) => one.name === name);
    return rating && `${rating.says} ${rating.value}`;
  };
  const address = `${location.href.split("#")[0]}#/bench/${id}`;
  const code = `data:image/svg+xml;utf8,${encodeURIComponent(renderSVG(address, { border: 2, ecc: "M" }))}`;
  return (
    <main className="column">
      <p className="way-back">
        <Link href={`/bench/${id}`}>‹ {text.bench.back}</Link>
      </p>
      {record !== undefined && view !== undefined && (
        <>
          <section className="tag">
            <img src={code} alt={text.bench.codeOf(record.head.number)} width={132} height={132} />
            <div>
              <h1>
                <span className="number">{record.head.number}</span> {record.head.complaint}
              </h1>
              <p>{told.map(([name, value]) => inFull(name) ?? `${name} ${value}`).join(", ")}</p>
              <p>
                <b>{gradeInWords(view.grade)}</b>
              </p>
              <p>{dayText(localDay(new Date(record.touched)))}</p>
            </div>
          </section>
          <button type="button" className="big-key quiet not-printed" onClick={() => window.print()}>
            {text.bench.print}
          </button>
          {view.grade.says !== "not finished" && (
            <div className="not-printed">
              <Folded says={text.bench.tagPaper}>
                <TagPaper record={record} view={view} />
              </Folded>
            </div>
          )}
        </>
      )}
    </main>
  );
}
