import type { Quantity } from "../../../core/meter/index.ts";
import { axisOf } from "../../words/reading.ts";
import { text } from "../english.ts";

const words = ["beeps", "no beep", "good", "some", "none"] as const;

/** Keys for a gloved thumb. Types what a display shows: digits, over-limit, the multiplier instead of the point (3k8). */
export function Keypad(props: {
  readonly quantity: Quantity;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly onNext: (() => void) | undefined;
}) {
  const { quantity, value, onChange, onNext } = props;
  const ohmic = axisOf(quantity) === "ohms";
  const digits = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"];
  const side = ohmic ? ["OL", "k", "M", "→"] : ["k", "m", "µ", "→"];
  const press = (key: string) => {
    if (key === "⌫") onChange(value.slice(0, -1));
    else if (key === "→") onNext?.();
    else if (key === "OL") onChange("OL");
    else onChange(`${value === "OL" ? "" : value}${key}`);
  };
  return (
    <fieldset className="keypad">
      <legend className="unseen">{text.keypad.title}</legend>
      {[digits, side].map((keys) => (
        <div key={keys.join("")} className={keys === digits ? "digits" : "side"}>
          {keys.map((key) => (
            <button
              key={key}
              type="button"
              aria-label={text.keypad.names[key] ?? key}
              disabled={key === "→" && onNext === undefined}
              onClick={() => press(key)}
            >
              {key}
            </button>
          ))}
        </div>
      ))}
      {ohmic && (
        <div className="keypad-words">
          {words.map((word) => (
            <button key={word} type="button" onClick={() => onChange(word)}>
              {word}
            </button>
          ))}
        </div>
      )}
    </fieldset>
  );
}
