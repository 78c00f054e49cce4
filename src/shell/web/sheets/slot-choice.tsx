import type { Family } from "../engine/protocol.ts";
import { text } from "../english.ts";

/** "How many wires on the lock?": one look chooses which small circuit it is. */
export function SlotChoice(props: {
  readonly slot: Family["slots"][number];
  readonly chosen: string | undefined;
  /** Chosen by a look, not only the commonest. */
  readonly told: boolean;
  readonly choose: (variant: string) => void;
}) {
  const { slot, chosen, told, choose } = props;
  const variant = slot.variants.find(({ id }) => id === chosen);
  return (
    <details>
      <summary>
        <span>
          {slot.ask} <b>{variant === undefined ? text.sheets.notThere : variant.id}</b>
          {variant !== undefined && !told && <span className="faint"> ({text.sheets.commonest})</span>}
        </span>
      </summary>
      <div className="form">
        {slot.variants.map(({ id, look }) => (
          <button key={id} type="button" className="look-key" aria-pressed={id === chosen} onClick={() => choose(id)}>
            <b>{id}</b>
            <span>{look}</span>
          </button>
        ))}
      </div>
    </details>
  );
}
