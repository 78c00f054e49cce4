import type { Traced } from "../../../core/trace/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { text } from "../english.ts";

const partWidth = 74;
const jointWidth = 22;
const height = 74;
const wire = 30;

/**
 * What lies between the two points of a reading: a few symbols in a row (IEC 60617), joints as dots, the way of the
 * meter's current as a double line, possible faults hatched, the two points marked with a kite and their names.
 */
export function BranchDrawing(props: {
  readonly way: readonly Traced[];
  readonly from: string;
  readonly to: string;
  /** Odds by part or joint. */
  readonly odds: ReadonlyMap<string, number>;
}) {
  const { way, from, to, odds } = props;
  if (way.length === 0) return null;
  let x = 30;
  const placed = way.map((one) => {
    const width = one.kind === "part" ? partWidth : jointWidth;
    x += width;
    return { one, at: x - width / 2 };
  });
  const end = x + 30;
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard too
    <div className="branch" tabIndex={0}>
      <svg width={end} height={height} viewBox={`0 0 ${end} ${height}`} role="img" aria-label={spoken(props)}>
        <defs>
          <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
            <line x1="0" y1="0" x2="0" y2="6" className="hatch" />
          </pattern>
        </defs>
        <path className="way-outer" d={`M18 ${wire}H${end - 18}`} />
        <path className="way-inner" d={`M18 ${wire}H${end - 18}`} />
        {placed.map(({ one, at }) => {
          const p = odds.get(one.id) ?? 0;
          return (
            <g key={`${one.id} ${at}`} transform={`translate(${at} ${wire})`}>
              <title>{p >= 0.03 ? `${one.says}: ${oddsInWords(p)}` : one.says}</title>
              {one.kind === "joint" ? (
                <circle r={4.5} className={p >= 0.03 ? "joint possible" : "joint"} />
              ) : (
                <g className={p >= 0.03 ? "symbol possible" : "symbol"}>{shapes[one.symbol]}</g>
              )}
              {one.kind === "part" && (
                <text y={32} textAnchor="middle">
                  {short(one.says)}
                </text>
              )}
            </g>
          );
        })}
        <Kite at={14} says={from} />
        <Kite at={end - 14} says={to} />
      </svg>
    </div>
  );
}

/** Our own mark for a point that a probe touches. */
function Kite({ at, says }: { readonly at: number; readonly says: string }) {
  return (
    <g transform={`translate(${at} ${wire})`} className="kite">
      <path d="M0 -9L6 0L0 13L-6 0Z" />
      <text y={-14} textAnchor="middle">
        {says.replace(/^.*\./, "")}
      </text>
    </g>
  );
}

/** The parts of IEC 60617 that a branch needs, each drawn round its middle on a wire that runs through it. */
const shapes: Readonly<Record<string, React.ReactNode>> = {
  resistor: <rect x={-18} y={-8} width={36} height={16} />,
  winding: <path className="open-shape" d="M-20 0a6.7 6.7 0 0 1 13.3 0a6.7 6.7 0 0 1 13.4 0a6.7 6.7 0 0 1 13.3 0" />,
  capacitor: (
    <>
      <rect x={-4} y={-12} width={8} height={24} className="gap" />
      <path d="M-4 -12V12M4 -12V12" />
    </>
  ),
  contact: (
    <>
      <rect x={-16} y={-11} width={32} height={14} className="gap" />
      <path d="M-16 0L16 0" />
      <path d="M-16 0L12 -8" />
    </>
  ),
  leak: <rect x={-18} y={-5} width={36} height={10} strokeDasharray="3 3" />,
  source: <circle r={11} />,
};

/** As much of a name as fits under a symbol; the whole is in its title, and in what is read aloud. */
function short(says: string): string {
  return says.length <= 14 ? says : `${says.slice(0, 13)}…`;
}

function spoken({ way, from, to, odds }: Parameters<typeof BranchDrawing>[0]): string {
  const parts = way.flatMap((one) => {
    if (one.kind === "joint") return [];
    const p = odds.get(one.id) ?? 0;
    return [p >= 0.03 ? `${one.says}, ${text.branch.possible}, ${oddsInWords(p)}` : one.says];
  });
  return `${text.branch.between} ${from} ${text.branch.and} ${to}: ${parts.join("; ")}`;
}
