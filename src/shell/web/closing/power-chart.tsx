import type { LoggedPower } from "../../../core/ledger/index.ts";
import { durationInWords } from "../../words/powerlog.ts";
import { closingText } from "../english-closing.ts";

/** The drawing's own units. */
const WIDE = 360;
const HIGH = 170;
const LEFT = 44;
const RIGHT = 10;
const TOP = 10;
const BOTTOM = 24;

/** Watts over time: what ran as blocks, told apart by pattern, and the samples as a line where they are at hand. */
export function PowerChart(props: {
  readonly log: LoggedPower;
  readonly samples: readonly (readonly [seconds: number, watts: number])[];
}) {
  const { log, samples } = props;
  const most = Math.max(10, ...log.runs.map(({ watts }) => watts), ...samples.map(([, watts]) => watts));
  const x = (seconds: number): number => LEFT + (seconds / Math.max(1, log.seconds)) * (WIDE - LEFT - RIGHT);
  const y = (watts: number): number => HIGH - BOTTOM - (Math.max(0, watts) / most) * (HIGH - TOP - BOTTOM);
  const line = samples.map(([seconds, watts]) => `${x(seconds).toFixed(1)},${y(watts).toFixed(1)}`).join(" ");
  const words = closingText.proof.log;
  return (
    <svg
      className="power-chart"
      viewBox={`0 0 ${WIDE} ${HIGH}`}
      role="img"
      aria-label={words.drawing(durationInWords(log.seconds), Math.round(most))}
    >
      <defs>
        <pattern id="motor" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" x2="0" y1="0" y2="5" className="stripe" />
        </pattern>
      </defs>
      {ticksOf(most).map((watts) => (
        <g key={watts}>
          <line className="grid" x1={LEFT} x2={WIDE - RIGHT} y1={y(watts)} y2={y(watts)} />
          <text x={LEFT - 5} y={y(watts) + 4} textAnchor="end">
            {watts}
          </text>
        </g>
      ))}
      {log.runs.map(({ load, from, to, watts }) => (
        <rect
          key={`${from} ${to}`}
          className={`run ${load.replaceAll(" ", "-")}`}
          x={x(from)}
          y={y(watts)}
          width={Math.max(1, x(to) - x(from))}
          height={y(0) - y(watts)}
        />
      ))}
      {line !== "" && <polyline className="samples" points={line} />}
      <line className="axis" x1={LEFT} x2={WIDE - RIGHT} y1={y(0)} y2={y(0)} />
      {timesOf(log.seconds).map((seconds) => (
        <text key={seconds} x={x(seconds)} y={HIGH - 7} textAnchor={seconds === 0 ? "start" : "middle"}>
          {seconds === 0 ? "0" : durationInWords(seconds)}
        </text>
      ))}
      <text x={LEFT - 5} y={HIGH - 7} textAnchor="end">
        {words.watts}
      </text>
    </svg>
  );
}

/** Round figures up the side, five at most. */
function ticksOf(most: number): readonly number[] {
  const step = roundUp(most / 5);
  return Array.from({ length: Math.floor(most / step) }, (_, n) => (n + 1) * step);
}

/** Round times along the foot, four at most, the last not at the very edge. */
function timesOf(seconds: number): readonly number[] {
  const units = [60, 300, 600, 1200, 1800, 3600, 7200, 14_400, 43_200, 86_400, 172_800, 604_800];
  const step = units.find((unit) => seconds / unit <= 4) ?? 30 * 86_400;
  return [0, ...Array.from({ length: Math.floor((0.95 * seconds) / step) }, (_, n) => (n + 1) * step)];
}

/** The next of 1, 2, 5, 10, 20 ... */
function roundUp(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  return ([1, 2, 5, 10].find((one) => one * power >= value) ?? 10) * power;
}
