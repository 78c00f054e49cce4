import { useId } from "react";
import { parseShown, type Quantity } from "../../../core/meter/index.ts";
import { text } from "../english.ts";
import { Keypad, RubOut } from "./keypad.tsx";

/** One reading: what it is, what the display shows, the keys to type it, and one to write it down. */
export function ReadingForm(props: {
  readonly says: string;
  readonly quantity: Quantity;
  readonly typed: string;
  readonly onType: (typed: string) => void;
  /** Called with what was typed once it can be read. */
  readonly record: (shows: string) => void;
}) {
  const { says, quantity, typed, onType, record } = props;
  const id = useId();
  const shows = typed.trim();
  const reads = parseShown(shows, quantity).ok;
  return (
    <form
      className="question"
      onSubmit={(event) => {
        event.preventDefault();
        if (reads) record(shows);
      }}
    >
      <label htmlFor={id}>{says}</label>
      <div className="reading-fields">
        <input
          id={id}
          className="reading-input"
          autoComplete="off"
          inputMode="none"
          value={typed}
          onChange={(event) => onType(event.currentTarget.value)}
          aria-invalid={shows !== "" && !reads}
        />
        <RubOut value={typed} onChange={onType} />
      </div>
      <p className="fault" role="status">
        {shows === "" || reads ? "" : text.step.unread(typed)}
      </p>
      <Keypad quantity={quantity} value={typed} onChange={onType} send={{ says: text.step.record, may: reads }} />
    </form>
  );
}
