import { useState } from "react";
import type { PlaceValues } from "../../words/good-values.ts";
import { askEngine } from "../engine/client.ts";
import type { Answered } from "../engine/protocol.ts";
import { text } from "../english.ts";

/** What a good machine shows, place by place; worked out when it is asked for. */
export function GoodValues({ name, answers }: { readonly name: string; readonly answers: Answered }) {
  const [places, setPlaces] = useState<readonly PlaceValues[]>();
  const [asked, setAsked] = useState(false);
  const words = text.sheets;
  const ask = () => {
    setAsked(true);
    askEngine({ do: "good values", name, answers }).then(setPlaces);
  };
  return (
    <section>
      <h2>{words.good}</h2>
      {places === undefined ? (
        <button type="button" className="big-key quiet" disabled={asked} onClick={ask}>
          {asked ? words.working : words.showGood}
        </button>
      ) : (
        <>
          <p>{words.goodCare}</p>
          {places.map(({ place, groups }) => (
            <details key={place}>
              <summary>{place}</summary>
              {groups.map(({ state = "", rows, folded }) => (
                <div key={state}>
                  {state !== "" && <h3>{state}</h3>}
                  <dl className="values">
                    {rows.map(({ label, value }) => (
                      <div key={`${label} ${value}`}>
                        <dt>{label}</dt>
                        <dd>{value}</dd>
                      </div>
                    ))}
                  </dl>
                  {folded !== undefined && <p className="faint">{folded}</p>}
                </div>
              ))}
            </details>
          ))}
        </>
      )}
    </section>
  );
}
