import { useState } from "react";
import { parseShown, unitOfQuantity } from "../../../core/meter/index.ts";
import type { Band, PlanQuestion } from "../../../core/plan/index.ts";
import { formatAmount } from "../../../core/quantity/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { reachInWords } from "../../words/reading.ts";
import { text } from "../english.ts";
import { axisFor } from "./scale-axis.ts";

const rowHeight = 26;
const top = 22;

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
  const height = top + bands.length * rowHeight + 6;
  return (
    <div className="scale">
      <svg viewBox={`0 0 360 ${height}`} role="img" aria-label={spoken(question, bands)}>
        <line x1={axis.left} x2={axis.right} y1={top - 4} y2={top - 4} className="axis" />
        {axis.stops.map(({ at, says }) => (
          <g key={says}>
            <line x1={at} x2={at} y1={top - 8} y2={height - 4} className="stop" />
            <text x={at} y={top - 11} textAnchor="middle">
              {says}
            </text>
          </g>
        ))}
        {bands.map((band, index) => {
          const [from, to] = axis.reach(band.reach);
          return (
            <rect
              // biome-ignore lint/suspicious/noArrayIndexKey: bands have no name of their own, and never change places
              key={index}
              x={from}
              width={Math.max(to - from, 6)}
              y={top + index * rowHeight + 3}
              height={rowHeight - 8}
              className={opened === index ? "band opened" : "band"}
            />
          );
        })}
        {mark !== undefined && (
          <g className="meter-mark">
            <line x1={mark} x2={mark} y1={top - 8} y2={height} />
            <path d={`M${mark - 6} ${height} h12 l-6 -9z`} />
          </g>
        )}
      </svg>
      <ol className="bands">
        {bands.map((band, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          <li key={index}>
            <button
              type="button"
              aria-expanded={opened === index}
              onClick={() => setOpened(opened === index ? undefined : index)}
            >
              <b className="number">{reachInWords(band.reach, quantity)}</b> {nameOf(band, opened === index)}
            </button>
          </li>
        ))}
        {question.others >= 0.02 && (
          <li className="faint">
            {text.scale.others}: {oddsInWords(question.others)}
          </li>
        )}
      </ol>
    </div>
  );
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
  return `${text.scale.title}, ${formatAmount(0, unitOfQuantity(quantity)).replace("0", "").trim()}. ${told.join(". ")}`;
}
