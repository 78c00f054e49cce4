import { oddsInWords } from "../../words/odds.ts";

/** Odds as ten dots and in words: the number itself is in the title, for who taps or points. */
export function OddsDots({ p }: { readonly p: number }) {
  const filled = Math.round(p * 10);
  return (
    <span className="odds" title={`${(p * 100).toFixed(p < 0.1 ? 1 : 0)} %`}>
      <svg viewBox="0 0 102 12" aria-hidden="true">
        {Array.from({ length: 10 }, (_, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: ten dots in a row
          <circle key={i} cx={6 + i * 10} cy={6} r={3.6} className={i < filled ? "dot full" : "dot"} />
        ))}
      </svg>
      <span>{oddsInWords(p)}</span>
    </span>
  );
}
