import type { ReactNode } from "react";
import type { LoggedPower } from "../../../core/ledger/index.ts";
import { clockInWords, durationInWords, LOAD_WORDS, STEP_WORDS } from "../../words/powerlog.ts";
import { closingText } from "../english-closing.ts";
import { PowerChart } from "./power-chart.tsx";

const words = closingText.proof.log;

/** What ran, as a drawing and as a table; and what that says of the programme. */
export function LogFinding(props: {
  readonly log: LoggedPower;
  readonly samples?: readonly (readonly [seconds: number, watts: number])[];
}) {
  const { log, samples = [] } = props;
  return (
    <>
      <p>
        <b>{log.file}</b>: {durationInWords(log.seconds)}, {log.kilowattHours} kWh
        {log.volts !== undefined && `, ${log.volts} V`}
      </p>
      <PowerChart log={log} samples={samples} />
      <h3>{words.ran}</h3>
      <Scrolled>
        <table className="ruled">
          <thead>
            <tr>
              <th scope="col">{words.columns.from}</th>
              <th scope="col">{words.columns.lasted}</th>
              <th scope="col">{words.columns.what}</th>
              <th scope="col" className="figures">
                {words.columns.watts}
              </th>
            </tr>
          </thead>
          <tbody>
            {log.runs.map(({ load, from, to, watts }) => (
              <tr key={`${from} ${to}`}>
                <td className="time">{clockInWords(from)}</td>
                <td className="time">{durationInWords(to - from)}</td>
                <td>{LOAD_WORDS[load]}</td>
                <td className="figures">{watts}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </Scrolled>
      {log.steps.length > 0 && (
        <>
          <h3>{words.programme}</h3>
          <Scrolled>
            <table className="ruled">
              <thead>
                <tr>
                  <th scope="col">{words.steps.step}</th>
                  <th scope="col">{words.steps.says}</th>
                  <th scope="col" className="figures">
                    {words.columns.watts}
                  </th>
                </tr>
              </thead>
              <tbody>
                {log.steps.map(({ step, says, watts }) => (
                  <tr key={step}>
                    <th scope="row">{step}</th>
                    <td>{STEP_WORDS[says]}</td>
                    <td className="figures">{watts ?? "–"}</td>
                  </tr>
                ))}
              </tbody>
            </table>
          </Scrolled>
          {log.steps.some(({ says }) => says === "not seen") && <p className="faint">{words.notSeen}</p>}
        </>
      )}
    </>
  );
}

/** A table wider than the glass scrolls by itself. */
function Scrolled({ children }: { readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by keyboard too
    <div className="rounds" tabIndex={0}>
      {children}
    </div>
  );
}
