import { Select } from "@mantine/core";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";

/** Which part is proved; what was mended last stands there first. */
export function PartChoice(props: {
  readonly parts: ClosingView["parts"];
  readonly value: string | null;
  readonly onChange: (id: string | null) => void;
}) {
  return (
    <Select
      size="lg"
      label={closingText.proof.part}
      searchable
      limit={40}
      data={props.parts.map(({ id, says }) => ({ value: id, label: says }))}
      value={props.value}
      onChange={props.onChange}
    />
  );
}

/** The part that was mended last, if it is one that can be proved. */
export function mendedPart({ parts, repair }: ClosingView): string | null {
  return parts.find(({ id }) => id === repair?.on)?.id ?? null;
}
