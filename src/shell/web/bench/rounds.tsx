import type { BenchView } from "../engine/protocol.ts";
import { text } from "../english.ts";
import { verdictInWords } from "./words.ts";

/** Before and after, side by side: a line a step, a column a round. */
export function Rounds({ view }: { readonly view: BenchView }) {
  const words = text.bench;
  const others = view.rounds.flatMap((round) => round.others);
  return (
    <section>
      <h2>{words.beside}</h2>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard too */}
      <div className="rounds" tabIndex={0}>
        <table>
          <thead>
            <tr>
              <th scope="col">{words.step}</th>
              {view.rounds.map((_, n) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: rounds have no name but their number
                <th scope="col" key={n}>
                  {words.round(n)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {view.test.steps.map((step) => (
              <tr key={step.index}>
                <th scope="row">{step.says}</th>
                {view.rounds.map(({ lines }, n) => {
                  const line = lines.get(step.index);
                  // biome-ignore lint/suspicious/noArrayIndexKey: as above
                  return <td key={n}>{line === undefined ? words.open : verdictInWords(line, step)}</td>;
                })}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {others.length > 0 && (
        <>
          <p>{words.others}</p>
          <ul>
            {others.map(({ does, shown }, n) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a finding has no name, and none comes or goes before it
              <li key={n}>
                {does}: {shown}
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
