import { useState } from "react";
import type { Quantity } from "../../../core/meter/index.ts";
import { axisOf } from "../../words/reading.ts";
import { text } from "../english.ts";

const words = ["beeps", "no beep", "good", "some", "none"] as const;

/**
 * Keys for a gloved thumb, inside a form. Types what a display shows: digits, over-limit, the multiplier instead of the
 * point (3k8), or a word where no number was read; the key in the thumb's corner sends the form.
 */
export function Keypad(props: {
  readonly quantity: Quantity;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** What sending the form does now; a key that may not be pressed where there is nothing to send. */
  readonly send: { readonly says: string; readonly may: boolean };
}) {
  const { quantity, value, onChange, send } = props;
  const [inWords, setInWords] = useState(false);
  const ohmic = axisOf(quantity) === "ohms";
  const press = (key: string) => {
    if (key === "OL") onChange(key);
    else onChange(`${value === "OL" ? "" : value}${key}`);
  };
  const say = (word: string) => {
    onChange(word);
    setInWords(false);
  };
  const key = (says: string, act: () => void) => (
    <button key={says} type="button" aria-label={text.keypad.names[says] ?? says} onClick={act}>
      {says}
    </button>
  );
  return (
    <fieldset className="keypad">
      <legend className="unseen">{text.keypad.title}</legend>
      {inWords ? (
        <div className="keypad-words">
          {words.map((word) => key(word, () => say(word)))}
          {key(text.keypad.toDigits, () => setInWords(false))}
        </div>
      ) : (
        <div className="digits">
          {["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0"].map((digit) => key(digit, () => press(digit)))}
          {ohmic && key(text.keypad.toWords, () => setInWords(true))}
        </div>
      )}
      <div className="side">
        {(ohmic ? ["OL", "k", "M"] : ["k", "m", "µ"]).map((side) => key(side, () => press(side)))}
        <button type="submit" className="send" disabled={!send.may}>
          {send.says}
        </button>
      </div>
    </fieldset>
  );
}

/** Takes the last character back; stands beside the field that is typed into. */
export function RubOut({ value, onChange }: { readonly value: string; readonly onChange: (value: string) => void }) {
  return (
    <button
      type="button"
      className="rub-out"
      aria-label={text.keypad.rubOut}
      // A word goes at once.
      onClick={() => onChange(/^[a-z]/i.test(value) ? "" : value.slice(0, -1))}
    >
      ⌫
    </button>
  );
}
