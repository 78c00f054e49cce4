import { TextInput } from "@mantine/core";

/** Fields for amounts as a person writes them: with their ±, a decimal comma or point. */
export function Amounts<Key extends string>(props: {
  readonly labels: Readonly<Record<Key, string>>;
  readonly keys: readonly Key[];
  readonly typed: Readonly<Partial<Record<Key, string>>>;
  readonly onType: (typed: Readonly<Partial<Record<Key, string>>>) => void;
}) {
  const { labels, keys, typed, onType } = props;
  return (
    <div className="amounts">
      {keys.map((key) => (
        <TextInput
          key={key}
          size="lg"
          label={labels[key]}
          value={typed[key] ?? ""}
          onChange={(event) => onType({ ...typed, [key]: event.currentTarget.value.replaceAll(",", ".") })}
        />
      ))}
    </div>
  );
}

/** A time as typed; where it brought no unit of its own it is minutes: "9.5 ±0.1" is "9.5 min ±0.1 min". */
export function inMinutes(typed: string): string {
  const text = typed.trim();
  return /[a-z]/i.test(text) ? text : text.replace(/(\d[\d.]*)(?!\s*%)(?![\d.])/g, "$1 min");
}
