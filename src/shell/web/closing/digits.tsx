import { closingText } from "../english-closing.ts";

const KEYS = ["7", "8", "9", "4", "5", "6", "1", "2", "3", ".", "0", "⌫"] as const;
const NAMES: Readonly<Record<string, string>> = { ".": closingText.digits.point, "⌫": closingText.digits.rubOut };

/** Digits for a gloved thumb: an instrument for safety tests shows a plain value in one unit. */
export function Digits({ value, onChange }: { readonly value: string; readonly onChange: (value: string) => void }) {
  return (
    <fieldset className="keypad">
      <legend className="unseen">{closingText.digits.title}</legend>
      <div className="digits">
        {KEYS.map((key) => (
          <button
            key={key}
            type="button"
            aria-label={NAMES[key] ?? key}
            onClick={() => onChange(key === "⌫" ? value.slice(0, -1) : `${value}${key}`)}
          >
            {key}
          </button>
        ))}
      </div>
    </fieldset>
  );
}
