import type { Traced } from "../../../core/trace/index.ts";
import { oddsInWords } from "../../words/odds.ts";
import { Hatches, Kite, leastHatched, Piece } from "../circuit/symbols.tsx";
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
        <Hatches />
        <path className="way-outer" d={`M18 ${wire}H${end - 18}`} />
        <path className="way-inner" d={`M18 ${wire}H${end - 18}`} />
        {placed.map(({ one, at }) => {
          const p = odds.get(one.id) ?? 0;
          return (
            <g key={`${one.id} ${at}`} transform={`translate(${at} ${wire})`}>
              <title>{p >= leastHatched ? `${one.says}: ${oddsInWords(p)}` : one.says}</title>
              <Piece one={one} p={p} />
              {one.kind === "part" && (
                <text y={32} textAnchor="middle">
                  {short(one.says)}
                </text>
              )}
            </g>
          );
        })}
        <Kite x={14} y={wire} says={from} />
        <Kite x={end - 14} y={wire} says={to} />
      </svg>
    </div>
  );
}

/** As much of a name as fits under a symbol; the whole is in its title, and in what is read aloud. */
function short(says: string): string {
  return says.length <= 14 ? says : `${says.slice(0, 13)}…`;
}

function spoken({ way, from, to, odds }: Parameters<typeof BranchDrawing>[0]): string {
  const parts = way.flatMap((one) => {
    if (one.kind === "joint") return [];
    const p = odds.get(one.id) ?? 0;
    return [p >= leastHatched ? `${one.says}, ${text.branch.possible}, ${oddsInWords(p)}` : one.says];
  });
  return `${text.branch.between} ${from} ${text.branch.and} ${to}: ${parts.join("; ")}`;
}
