import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";

/** What the insulation test at the plug does not reach of this machine, and how to reach it. */
export function Coverage({ coverage }: { readonly coverage: NonNullable<ClosingView["coverage"]> }) {
  const { reached, missed } = coverage;
  const words = closingText.coverage;
  return (
    <section className="coverage">
      <h3>{words.title}</h3>
      {missed.length === 0 && reached.length > 0 ? (
        <p>{words.all}</p>
      ) : (
        <ul>
          {missed.map((says) => (
            <li key={says}>{says}</li>
          ))}
        </ul>
      )}
      <p className="faint">{reached.length === 0 ? words.nothing : words.reached(reached.join(", "))}</p>
    </section>
  );
}
