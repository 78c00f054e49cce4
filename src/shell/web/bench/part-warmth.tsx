import { NumberInput } from "@mantine/core";
import { useState } from "react";
import type { Warmth } from "../../../core/bench/index.ts";
import { text } from "../english.ts";
import { Folded } from "../shell/folded.tsx";

/** How warm the part is: the limits of its windings and sensors are for that temperature. */
export function PartWarmth(props: { readonly celsius: number; readonly write: (body: Warmth) => void }) {
  const { celsius, write } = props;
  const [typed, setTyped] = useState<number | string>(celsius);
  const words = text.bench;
  const degrees = typeof typed === "number" ? typed : Number.NaN;
  return (
    <Folded says={words.judgedAt(celsius)}>
      <form
        className="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (Number.isFinite(degrees)) write({ celsius: degrees });
        }}
      >
        <p>{words.warmthWhy}</p>
        <NumberInput
          size="lg"
          label={words.warmth}
          suffix=" °C"
          min={-30}
          max={150}
          decimalScale={1}
          hideControls
          value={typed}
          onChange={setTyped}
        />
        <button type="submit" className="big-key" disabled={!Number.isFinite(degrees) || degrees === celsius}>
          {words.warmthSet}
        </button>
      </form>
    </Folded>
  );
}
