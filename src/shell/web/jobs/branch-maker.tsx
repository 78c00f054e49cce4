import { Button, Select, TextInput } from "@mantine/core";
import { useEffect, useState } from "react";
import { askEngine } from "../engine/client.ts";
import type { KindOffer } from "../engine/protocol.ts";
import { text } from "../english.ts";

/** A branch named part by part, in the order in which the current meets them: `heater:P=1800 W`. */
export function BranchMaker(props: {
  readonly parts: readonly string[];
  readonly onChange: (parts: readonly string[]) => void;
  readonly wrong: string | undefined;
}) {
  const { parts, onChange, wrong } = props;
  const [kinds, setKinds] = useState<readonly KindOffer[]>([]);
  const [id, setId] = useState<string | null>(null);
  const [rating, setRating] = useState("");
  const words = text.branchJob;
  useEffect(() => {
    askEngine({ do: "kinds" }).then(setKinds);
  }, []);
  const kind = kinds.find((one) => one.id === id);
  const [asked] = kind?.ratings ?? [];
  const named = new Map(kinds.map(({ id: one, says }) => [one, says]));
  const put = () => {
    if (kind === undefined) return;
    const told = asked === undefined || rating.trim() === "" ? "" : `:${asked.name}=${rating.trim()}`;
    onChange([...parts, `${kind.id}${told}`]);
    setId(null);
    setRating("");
  };
  return (
    <fieldset className="plain form">
      <legend>{words.title}</legend>
      {parts.length === 0 && <p className="faint">{words.none}</p>}
      <ol className="ledger">
        {parts.map((part, index) => {
          const [what = "", told = ""] = part.split(":");
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: two parts of a branch may be alike, and they keep their places
            <li key={index} className="branch-part">
              <span>
                {index + 1}. {named.get(what) ?? what} {told.replace("=", " ")}
              </span>
              <button type="button" className="small-key" onClick={() => onChange(parts.filter((_, n) => n !== index))}>
                {words.remove}
              </button>
            </li>
          );
        })}
      </ol>
      <Select
        size="lg"
        label={words.add}
        searchable
        data={kinds.map(({ id: value, says }) => ({ value, label: says }))}
        value={id}
        onChange={setId}
        error={wrong}
      />
      {asked !== undefined && (
        <TextInput
          size="lg"
          label={words.rating(asked.says, asked.value)}
          value={rating}
          onChange={(event) => setRating(event.currentTarget.value)}
        />
      )}
      <Button size="lg" variant="outline" disabled={kind === undefined} onClick={put}>
        {words.put}
      </Button>
    </fieldset>
  );
}
