import type { WrittenEvent } from "../../../core/ledger/index.ts";
import { Tick } from "../end/ticks.tsx";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import type { RoomProps } from "./closing-screen.tsx";

type Item = ClosingView["putBack"][number];

/** What was opened, pulled or taken off: the list makes itself; each is ticked, or all of it. */
export function PutBackList({ view, write, takeBack }: Pick<RoomProps, "view" | "write" | "takeBack">) {
  const words = closingText.back;
  const owed = view.putBack.filter(({ isBack }) => !isBack);
  return (
    <section>
      <h2>{words.title}</h2>
      {view.putBack.length === 0 && <p>{words.none}</p>}
      <ul className="verify">
        {view.putBack.map((item) => (
          <li key={`${item.kind} ${item.id}`}>
            <Tick
              says={item.says}
              done={item.isBack}
              onPress={() => (item.event === undefined ? write(backAgain(item)) : takeBack(item.event))}
            />
          </li>
        ))}
      </ul>
      {owed.length > 1 && (
        <button type="button" className="big-key quiet" onClick={() => write(...owed.map(backAgain))}>
          {words.all}
        </button>
      )}
      {view.putBack.length > 0 && owed.length === 0 && <p>{words.done}</p>}
    </section>
  );
}

/** One event a thing, so that each can be taken back by itself. */
function backAgain({ kind, id }: Item): WrittenEvent {
  return kind === "cover" ? { kind: "closed", body: id } : { kind: "ticked", body: [id] };
}
