import type { ReactNode } from "react";
import type { Traced } from "../../../core/trace/index.ts";

/** Odds from which on a part is hatched. */
export const leastHatched = 0.03;
/** The likelier, the closer the hatching: from these odds on. */
const CLOSER = [leastHatched, 0.15, 0.4] as const;
const SPACING = [8, 5, 3] as const;

/** Patterns that possible faults are filled with; once in every drawing. */
export function Hatches() {
  return (
    <defs>
      {SPACING.map((gap, n) => (
        <pattern
          key={gap}
          id={`hatch-${n + 1}`}
          width={gap}
          height={gap}
          patternUnits="userSpaceOnUse"
          patternTransform="rotate(45)"
        >
          <line x1="0" y1="0" x2="0" y2={gap} className="hatch" />
        </pattern>
      ))}
    </defs>
  );
}

/** One piece of a way, drawn round the origin on a wire that runs from left to right; hatched by its odds. */
export function Piece({ one, p }: { readonly one: Traced; readonly p: number }) {
  const closeness = CLOSER.filter((least) => p >= least).length;
  const shape = one.kind === "joint" ? <circle r={4.5} /> : one.isOpen === true ? OPEN_CONTACT : shapes[one.symbol];
  const sort = one.kind === "joint" ? "joint" : "symbol";
  return (
    <>
      <g className={sort}>{shape}</g>
      {closeness > 0 && <g className={`${sort} possible-${closeness}`}>{shape}</g>}
    </>
  );
}

/** Our own mark for a point that a probe touches. */
export function Kite({ x, y, says }: { readonly x: number; readonly y: number; readonly says: string }) {
  return (
    <g transform={`translate(${x} ${y})`} className="kite">
      <path d="M0 -9L6 0L0 13L-6 0Z" />
      <text y={-14} textAnchor="middle">
        {says.replace(/^.*\./, "")}
      </text>
    </g>
  );
}

/** A contact that stays open until something drives it. */
const OPEN_CONTACT = (
  <>
    <rect x={-16} y={-11} width={32} height={14} className="gap" />
    <path d="M-16 0L12 -9" className="open-shape" />
  </>
);

/** The parts of IEC 60617 that a branch needs, each drawn round its middle on a wire that runs through it. */
const shapes: Readonly<Record<string, ReactNode>> = {
  resistor: <rect x={-18} y={-8} width={36} height={16} />,
  winding: <path className="open-shape" d="M-20 0a6.7 6.7 0 0 1 13.3 0a6.7 6.7 0 0 1 13.4 0a6.7 6.7 0 0 1 13.3 0" />,
  capacitor: (
    <>
      <rect x={-4} y={-12} width={8} height={24} className="gap" />
      <path d="M-4 -12V12M4 -12V12" />
    </>
  ),
  conductor: <path d="M-18 0H18" className="conductor" />,
  contact: (
    <>
      <rect x={-14} y={-11} width={30} height={16} className="gap" />
      <path d="M-14 0L17 -5M13 -10V0H16" className="open-shape" />
    </>
  ),
  leak: <rect x={-18} y={-5} width={36} height={10} strokeDasharray="3 3" />,
  source: <circle r={11} />,
};
