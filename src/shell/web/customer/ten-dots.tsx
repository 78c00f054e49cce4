/** A chance as ten dots; the words beside it say the same. */
export function TenDots({ p }: { readonly p: number }) {
  const full = Math.round(p * 10);
  return (
    <svg className="ten-dots" viewBox="0 0 102 12" aria-hidden="true">
      {Array.from({ length: 10 }, (_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: ten dots in a row
        <circle key={i} cx={6 + i * 10} cy={6} r={3.6} className={i < full ? "dot full" : "dot"} />
      ))}
    </svg>
  );
}
