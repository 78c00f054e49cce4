import { Button, NumberInput } from "@mantine/core";
import { useState } from "react";
import type { Warmth } from "../../../core/bench/index.ts";
import { text } from "../english.ts";

/** How warm the part is: the limits of its windings and sensors are for that temperature. */
export function PartWarmth(props: { readonly celsius: number; readonly write: (body: Warmth) => void }) {
  const { celsius, write } = props;
  const [typed, setTyped] = useState<number | string>(celsius);
  const words = text.bench;
  const degrees = typeof typed === "number" ? typed : Number.NaN;
  return (
    <form
      className="part-warmth"
      onSubmit={(event) => {
        event.preventDefault();
        if (Number.isFinite(degrees)) write({ celsius: degrees });
      }}
    >
      <NumberInput
        size="lg"
        label={words.warmth}
        description={words.warmthWhy}
        suffix=" °C"
        min={-30}
        max={150}
        decimalScale={1}
        hideControls
        value={typed}
        onChange={setTyped}
      />
      <Button type="submit" size="lg" className="key quiet" disabled={!Number.isFinite(degrees) || degrees === celsius}>
        {words.warmthSet}
      </Button>
    </form>
  );
}
