/** A small drawing of our own for each family: what its inside does, not what its front looks like. */
export function MachineDrawing({ family }: { readonly family: string }) {
  return (
    <svg viewBox="0 0 48 48" className="machine-drawing" aria-hidden="true">
      <title>{family}</title>
      {shapes[family] ?? <path d="M10 24h10m8 0h10M20 18h8v12h-8z" />}
    </svg>
  );
}

const shapes: Readonly<Record<string, React.ReactNode>> = {
  "tumble-dryer": (
    <>
      <path d="M8 30a16 16 0 0 1 32 0" />
      <path d="M12 40q4-4 0-8M24 40q4-4 0-8M36 40q4-4 0-8" />
      <path d="M18 26l6-4 6 4" />
    </>
  ),
  dishwasher: (
    <>
      <path d="M8 34h32M10 34v4M38 34v4" />
      <path d="M14 34a6 10 0 0 1 4-14M34 34a6 10 0 0 0-4-14M24 34V16" />
      <path d="M18 12l2 3M24 8v4M30 12l-2 3" />
    </>
  ),
  "washing-machine": (
    <>
      <circle cx="24" cy="26" r="14" />
      <path d="M11 28q4-3 7 0t7 0 7 0 5 0" />
      <path d="M24 12V6M18 6h12" />
    </>
  ),
};
