import { useState } from "react";
import { parseShown } from "../../../core/meter/index.ts";
import type { Band, PlanQuestion } from "../../../core/plan/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { reachInWords, unitSign } from "../../words/reading.ts";
import { text } from "../english.ts";
import { axisFor } from "./scale-axis.ts";

/** Of the drawing, in the units of its axis. */
const WIDTH = 360;
const NARROWEST = 14;

/**
 * One axis, a band for each group of faults that would put the reading in the same place, and a mark where the meter
 * stood. Ohms run by decades between "lead or less" and OL; all else straight from zero. Tap a band to see who it is.
 */
export function ReadingScale({ question, typed }: { readonly question: PlanQuestion; readonly typed: string }) {
  const [opened, setOpened] = useState<number>();
  const quantity = question.probe?.quantity;
  const bands = question.bands.flatMap(({ reach, ...rest }) =>
    reach === "open" || "lo" in reach ? [{ ...rest, reach }] : [],
  );
  if (quantity === undefined || bands.length === 0) return null;
  const axis = axisFor(quantity, bands);
  const shown = typed.trim() === "" ? undefined : parseShown(typed, quantity);
  const mark =
    shown?.ok === true
      ? shown.value.kind === "over limit"
        ? axis.at("open")
        : shown.value.kind === "value"
          ? axis.at(shown.value.value)
          : undefined
      : undefined;
  return (
    <div className="scale">
      <div className="plot">
        <svg viewBox={`0 0 ${WIDTH} 22`} role="img" aria-label={spoken(question, bands)}>
          <line x1={axis.left} x2={axis.right} y1={21} y2={21} className="axis" />
          {axis.stops.map(({ at, says }) => (
            <text key={says} x={at} y={14} textAnchor="middle">
              {says}
            </text>
          ))}
        </svg>
        <ol className="bands">
          {bands.map((band, index) => {
            const [from, to] = axis.reach(band.reach);
            return (
              // biome-ignore lint/suspicious/noArrayIndexKey: bands have no name of their own, and never change places
              <li key={index}>
                <button
                  type="button"
                  aria-expanded={opened === index}
                  onClick={() => setOpened(opened === index ? undefined : index)}
                >
                  <span className={opened === index ? "" : "one-line"}>
                    <b className="number">{reachInWords(band.reach, quantity)}</b> {nameOf(band, opened === index)}
                  </span>
                  <svg viewBox={`0 0 ${WIDTH} 24`} preserveAspectRatio="none" aria-hidden="true">
                    {axis.stops.map(({ at, says }) => (
                      <line key={says} x1={at} x2={at} y1={0} y2={24} className="stop" />
                    ))}
                    <rect {...wideEnough(from, to)} y={2} height={18} className="band" />
                  </svg>
                </button>
              </li>
            );
          })}
        </ol>
        {mark !== undefined && (
          <svg className="meter-mark" viewBox={`0 0 ${WIDTH} 100`} preserveAspectRatio="none" aria-hidden="true">
            <line x1={mark} x2={mark} y1={0} y2={100} />
          </svg>
        )}
      </div>
      {question.others >= 0.02 && (
        <p className="faint">
          {text.scale.others}: {oddsInWords(question.others)}
        </p>
      )}
    </div>
  );
}

/** A band that a thumb and an eye find, however narrow it is: never less than it is. */
function wideEnough(from: number, to: number): { readonly x: number; readonly width: number } {
  const width = Math.max(to - from, NARROWEST);
  return { x: (from + to - width) / 2, width };
}

function nameOf({ faults, p }: Pick<Band, "faults" | "p">, whole: boolean): string {
  const names = [...new Set(faults.map(({ says }) => says))];
  const shown = whole || names.length <= 2 ? names : names.slice(0, 1);
  const more = names.length - shown.length;
  return `${shown.join("; ")}${more > 0 ? ` and ${more} more` : ""} · ${oddsInWords(p)}`;
}

/** A band that has a place on an axis. */
type Drawn = Omit<Band, "reach"> & { readonly reach: Exclude<Band["reach"], { readonly word: string }> };

/** The scale for ears: each band's reach and whose it is. */
function spoken(question: PlanQuestion, bands: readonly Drawn[]): string {
  const quantity = question.probe?.quantity;
  if (quantity === undefined) return text.scale.title;
  const told = bands.map((band) => `${reachInWords(band.reach, quantity)}: ${nameOf(band, false)}`);
  return `${text.scale.title}, ${unitSign(quantity)}. ${told.join(". ")}`;
}
