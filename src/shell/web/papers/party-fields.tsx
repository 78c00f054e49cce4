import { Textarea, TextInput } from "@mantine/core";
import type { Party } from "../../../core/money/index.ts";
import { papersText } from "../english-papers.ts";

const words = papersText.people;

/** Name and address to be typed; `partyTyped` reads them. */
export function PartyFields(props: {
  readonly party: Party | undefined;
  readonly wrong: Readonly<Record<string, string>>;
  /** A business that pays has a number of its own. */
  readonly isPayer?: boolean;
  /** What the name is called, where it is not a person's. */
  readonly nameSays?: string;
}) {
  const { party, wrong, isPayer = false, nameSays = words.name } = props;
  const field = (name: "postcode" | "town" | "phone" | "email", label: string, mode?: "tel" | "email") => (
    <TextInput
      size="lg"
      name={name}
      label={label}
      defaultValue={party?.[name] ?? ""}
      inputMode={mode}
      autoComplete="off"
    />
  );
  return (
    <>
      <TextInput
        size="lg"
        name="name"
        label={nameSays}
        defaultValue={party?.name ?? ""}
        error={wrong.name}
        autoComplete="off"
      />
      <Textarea
        size="lg"
        name="lines"
        label={words.lines}
        autosize
        minRows={1}
        defaultValue={party?.lines.join("\n") ?? ""}
        autoComplete="off"
      />
      <div className="two-fields">
        {field("postcode", words.postcode)}
        {field("town", words.town)}
      </div>
      <TextInput
        size="lg"
        name="country"
        label={words.country}
        defaultValue={party?.country ?? ""}
        error={wrong.country}
        autoComplete="off"
      />
      {field("phone", words.phone, "tel")}
      {field("email", words.email, "email")}
      {isPayer && (
        <TextInput size="lg" name="vat id" label={words.vatId} defaultValue={party?.vatId ?? ""} autoComplete="off" />
      )}
    </>
  );
}

/** What was typed, in the words of a job file; with what is wrong about it, by the field's name. */
export function partyTyped(form: FormData): {
  readonly party: Readonly<Record<string, unknown>>;
  readonly faults: Readonly<Record<string, string>>;
} {
  const typed = (name: string): string => String(form.get(name) ?? "").trim();
  const lines = typed("lines")
    .split("\n")
    .map((line) => line.trim())
    .filter((line) => line !== "");
  const country = typed("country").toUpperCase();
  const more = ["postcode", "town", "phone", "email", "vat id"].filter((name) => typed(name) !== "");
  return {
    party: {
      name: typed("name"),
      ...(lines.length === 0 ? {} : { lines }),
      ...Object.fromEntries(more.map((name) => [name, typed(name)])),
      ...(country === "" ? {} : { country }),
    },
    faults: {
      ...(typed("name") === "" ? { name: words.needName } : {}),
      ...(country !== "" && !/^[A-Z]{2}$/.test(country) ? { country: words.badCountry } : {}),
    },
  };
}
