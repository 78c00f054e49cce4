import { useState } from "react";
import { closingText } from "../english-closing.ts";
import type { RoomProps } from "./closing-screen.tsx";
import { PutBackList } from "./put-back-list.tsx";
import { SettingForm, SettingLine } from "./setting.tsx";
import { TestCardView } from "./test-card.tsx";

/** After a repair: everything back in its place, then the safety tests, a card each, in the order of the rules. */
export function TestsPage(props: RoomProps) {
  const { view, write, takeBack, id } = props;
  const [changing, setChanging] = useState(false);
  const { setting, verdict, tests } = view;
  const words = closingText.tests;
  const asking = setting === undefined || changing;
  return (
    <>
      <h1>{closingText.rooms.tests}</h1>
      {view.repair !== undefined && <p>{view.repair.says}</p>}
      {view.isUntouched && <p>{words.untouched}</p>}
      {view.energisedEarly !== undefined && (
        <p className="trouble">
          {words.early[view.energisedEarly]} {view.owesNewTests && words.owes}
        </p>
      )}
      <PutBackList view={view} write={write} takeBack={takeBack} />
      <section>
        <h2>{words.title}</h2>
        <p className="faint">{words.competent}</p>
        {asking ? (
          <SettingForm view={view} write={write} onDone={() => setChanging(false)} />
        ) : (
          <SettingLine view={view} setting={setting} onChange={() => setChanging(true)} />
        )}
        {!asking &&
          tests.map((card, at) => (
            <TestCardView
              key={`${card.test} ${card.event ?? ""} ${card.test === view.next}`}
              card={card}
              isReached={tests.slice(0, at).every(({ event }) => event !== undefined)}
              view={view}
              job={id}
              write={write}
              takeBack={takeBack}
            />
          ))}
        {verdict !== undefined && !asking && (
          <p className="verdict">
            {verdict === "not finished" && view.mayEnergise ? words.notHandedBack : words.verdict[verdict]}
          </p>
        )}
      </section>
    </>
  );
}
