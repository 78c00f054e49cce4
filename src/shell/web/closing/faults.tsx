import { closingText } from "../english-closing.ts";

/** Why what was typed was not written down. */
export function Faults({ faults }: { readonly faults: readonly string[] }) {
  return (
    <div role="alert">
      {faults.length > 0 && (
        <p className="trouble">
          {closingText.failedCheck} {faults.join("; ")}
        </p>
      )}
    </div>
  );
}
