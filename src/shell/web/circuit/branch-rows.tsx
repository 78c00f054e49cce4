import { useState } from "react";
import type { Branch, Traced } from "../../../core/trace/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { text } from "../english.ts";
import { Hatches, leastHatched, Piece } from "./symbols.tsx";

/** Of a row's drawing: from part to part, in front of the first and behind the last, and its height. */
const SPACING = 48;
const MARGIN = 24;
const HEIGHT = 32;
/** Rows with more parts than this are drawn closer, so that the others keep their size. */
const PARTS = 7;
const WIDTH = PARTS * SPACING + 2 * MARGIN;
const ZOOMS = [1, 2, 3] as const;
/** From this size on the parts have their names below them, so many letters for each step of size. */
const NAMED = 2;
const LETTERS = 7;
const LETTER_PX = 12;

/** What a drawing shows of the job in hand; of a sheet alone there is nothing to show. */
export interface Shown {
  /** Odds by part or joint. */
  readonly odds: ReadonlyMap<string, number>;
  /** Parts and joints on the way of the chosen step. */
  readonly live: ReadonlySet<string>;
  /** Points that the step's readings touch. */
  readonly marks: ReadonlySet<string>;
  /** Points picked by hand, and how one is picked or let go; absent where nothing is measured. */
  readonly picked?: readonly string[];
  readonly pick?: (point: string) => void;
}

/**
 * A machine's circuit by branches: a row for each load from pole to pole, its parts as symbols; a row opens to the same
 * parts in order as a list, with every connection and every point that can be probed.
 */
export function BranchRows({ branches, shown }: { readonly branches: readonly Branch[]; readonly shown: Shown }) {
  const [zoom, setZoom] = useState(0);
  const words = text.circuit;
  return (
    <>
      <fieldset className="zoom">
        <legend className="unseen">{words.zoom}</legend>
        <button type="button" aria-label={words.smaller} disabled={zoom === 0} onClick={() => setZoom(zoom - 1)}>
          −
        </button>
        <button
          type="button"
          aria-label={words.larger}
          disabled={zoom === ZOOMS.length - 1}
          onClick={() => setZoom(zoom + 1)}
        >
          +
        </button>
      </fieldset>
      {(["mains", "low voltage"] as const).map((supply) => {
        const rows = branches.filter((branch) => branch.supply === supply);
        if (rows.length === 0) return null;
        return (
          <section key={supply}>
            <h2>{words.supplies[supply]}</h2>
            <div className="circuit">
              <div style={{ width: `${(ZOOMS[zoom] ?? 1) * 100}%` }}>
                <p className="poles number">
                  {words.poles[supply].map((pole) => (
                    <b key={pole}>{pole}</b>
                  ))}
                </p>
                <ul>
                  {rows.map((branch) => (
                    <BranchRow
                      key={branch.id}
                      branch={branch}
                      says={nameOf(branch, rows)}
                      shown={shown}
                      zoom={ZOOMS[zoom] ?? 1}
                    />
                  ))}
                </ul>
              </div>
            </div>
          </section>
        );
      })}
    </>
  );
}

/** What a row is called: by its load, and where another is called so too by the part that it alone has. */
function nameOf(branch: Branch, rows: readonly Branch[]): string {
  if (branch.role !== "load") return text.circuit.roles[branch.role];
  const others = rows.filter((row) => row !== branch && row.role === "load" && row.says === branch.says);
  const own = partsOf(branch.way).find(({ id }) => others.every(({ way }) => way.every((one) => one.id !== id)));
  return others.length === 0 || own === undefined ? branch.says : text.circuit.by(branch.says, own.says);
}

function BranchRow(props: {
  readonly branch: Branch;
  readonly says: string;
  readonly shown: Shown;
  readonly zoom: number;
}) {
  const { branch, says, shown, zoom } = props;
  const [isOpen, setIsOpen] = useState(false);
  const parts = partsOf(branch.way);
  const isLive = ({ id }: Traced): boolean => shown.live.has(id);
  const isOnWay = branch.role === "load" && parts.some(isLive);
  const [first, last] = [parts.findIndex(isLive), parts.findLastIndex(isLive)];
  const step = Math.min(SPACING, (WIDTH - 2 * MARGIN) / parts.length);
  const at = (n: number): number => WIDTH / 2 + (n - (parts.length - 1) / 2) * step;
  const likeliest = Math.max(0, ...parts.map(({ id }) => shown.odds.get(id) ?? 0));
  const wire = HEIGHT / 2;
  const height = zoom < NAMED ? HEIGHT : HEIGHT + LETTER_PX / zoom;
  return (
    <li>
      <button type="button" className="branch-row" aria-expanded={isOpen} onClick={() => setIsOpen(!isOpen)}>
        <span>
          <b>{says}</b>
          {isOnWay && <> · {text.circuit.thisStep}</>}
          {likeliest >= leastHatched && <> · {oddsInWords(likeliest)}</>}
        </span>
        <svg viewBox={`0 0 ${WIDTH} ${height}`} aria-hidden="true">
          <Hatches />
          <path d={`M0 ${wire}H${WIDTH}`} className="wire" />
          {isOnWay &&
            ["way-outer", "way-inner"].map((line) => (
              <path key={line} d={`M${at(first) - step / 2} ${wire}H${at(last) + step / 2}`} className={line} />
            ))}
          {parts.map((one, n) => (
            <g
              // biome-ignore lint/suspicious/noArrayIndexKey: a way passes some parts twice, in and out
              key={n}
              transform={`translate(${at(n)} ${wire}) scale(${step / SPACING})`}
            >
              <Piece one={one} p={shown.odds.get(one.id) ?? 0} />
              {zoom >= NAMED && step === SPACING && (
                <text y={wire + LETTER_PX / zoom - 4} textAnchor="middle" style={{ fontSize: LETTER_PX / zoom }}>
                  {one.says.length <= LETTERS * zoom ? one.says : `${one.says.slice(0, LETTERS * zoom - 1)}…`}
                </text>
              )}
            </g>
          ))}
        </svg>
      </button>
      {isOpen && <Run branch={branch} shown={shown} />}
    </li>
  );
}

/** A branch from top to bottom: its parts and connections in order, with what can be probed between them. */
function Run({ branch, shown }: { readonly branch: Branch; readonly shown: Shown }) {
  const { way, points } = branch;
  const isLive = (n: number): boolean => way[n] !== undefined && shown.live.has(way[n].id);
  return (
    <ol className="run">
      <Probed point={points[0]} shown={shown} isLive={false} />
      {way.map((one, n) => {
        const p = shown.odds.get(one.id) ?? 0;
        const told = one.kind === "part" || p >= leastHatched;
        return [
          <li
            // biome-ignore lint/suspicious/noArrayIndexKey: a way passes some parts twice, in and out
            key={`${n} piece`}
            className={`${isLive(n) ? "live-way " : ""}${told ? "" : "bare"}`}
            aria-hidden={told ? undefined : true}
          >
            <svg viewBox="-24 -24 48 48" aria-hidden="true">
              <Hatches />
              <g transform="rotate(90)">
                <Piece one={one} p={p} />
              </g>
            </svg>
            {told && (
              <span>
                {one.says}
                {one.kind === "part" && one.isOpen === true && <> · {text.circuit.isOpen}</>}
                {p >= leastHatched && (
                  <>
                    {" · "}
                    <b>
                      {text.branch.possible}, {oddsInWords(p)}
                    </b>
                  </>
                )}
              </span>
            )}
          </li>,
          // biome-ignore lint/suspicious/noArrayIndexKey: as above
          <Probed key={`${n} point`} point={points[n + 1]} shown={shown} isLive={isLive(n) && isLive(n + 1)} />,
        ];
      })}
    </ol>
  );
}

/** A point between two pieces: marked where the step touches it, to be picked where something can be measured. */
function Probed(props: { readonly point: Branch["points"][number]; readonly shown: Shown; readonly isLive: boolean }) {
  const { point, shown, isLive } = props;
  if (point === undefined) return null;
  const { picked, pick, marks } = shown;
  const isPicked = picked?.includes(point.id) === true;
  const says = (
    <>
      <svg viewBox="-24 -24 48 48" aria-hidden="true" className="kite">
        {(isPicked || marks.has(point.id)) && <path d="M0 -14L9 0L0 18L-9 0Z" />}
      </svg>
      <span>
        {point.says}
        {marks.has(point.id) && <b> · {text.circuit.probeHere}</b>}
      </span>
    </>
  );
  return (
    <li className={isLive ? "probed live-way" : "probed"}>
      {pick === undefined ? (
        says
      ) : (
        <button type="button" aria-pressed={isPicked} onClick={() => pick(point.id)}>
          {says}
        </button>
      )}
    </li>
  );
}

function partsOf(way: readonly Traced[]): readonly Traced[] {
  return way.filter(({ kind }) => kind === "part");
}
