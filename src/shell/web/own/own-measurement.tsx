import { Button, Checkbox, MultiSelect, Select, TextInput } from "@mantine/core";
import { useState } from "react";
import { parseShown, type Quantity } from "../../../core/meter/index.ts";
import type { Desk } from "../engine/protocol.ts";
import { text } from "../english.ts";
import type { Write } from "../job/job-screen.tsx";
import { UNKNOWN } from "../practice/find-out.tsx";

/** What can be measured here, as the job file names it. */
const quantities: Readonly<
  Record<string, { readonly quantity: Quantity; readonly live: boolean; readonly points: boolean }>
> = {
  shows: { quantity: "ohms", live: false, points: true },
  insulation: { quantity: "insulation ohms", live: false, points: true },
  farads: { quantity: "farads", live: false, points: true },
  volts: { quantity: "volts", live: true, points: true },
  watts: { quantity: "watts", live: true, points: false },
  leakage: { quantity: "leakage amps", live: true, points: false },
};

/** Any two points of the machine, whether the plan asked for them or not. */
export function OwnMeasurement(props: {
  readonly desk: Desk;
  readonly write: Write;
  /** The machine of a practice job says what the meter shows. */
  readonly asks: boolean;
  /** Points that are picked already. */
  readonly between?: { readonly from: string; readonly to: string };
  /** Nothing is to be measured here with power on. */
  readonly deadOnly?: boolean;
}) {
  const { desk, write, asks, between, deadOnly = false } = props;
  const [what, setWhat] = useState("shows");
  const [from, setFrom] = useState<string | null>(between?.from ?? null);
  const [to, setTo] = useState<string | null>(between?.to ?? null);
  const [step, setStep] = useState<string | null>(null);
  const [pulled, setPulled] = useState<string[]>([]);
  const [nulled, setNulled] = useState(true);
  const [typed, setTyped] = useState("");
  const words = text.own;
  const { quantity, live, points } = quantities[what] ?? { quantity: "ohms" as const, live: false, points: true };
  const read = parseShown(typed, quantity);
  const places = desk.points.map(({ id, says }) => ({ value: id, label: says }));
  const ready =
    (asks || (typed.trim() !== "" && read.ok)) &&
    (!points || (from !== null && to !== null)) &&
    (!live || step !== null);
  const record = async () => {
    const body = {
      ...(points ? { from, to } : {}),
      [what]: asks ? UNKNOWN : typed.trim(),
      ...(live ? { in: step } : { ...(pulled.length > 0 ? { pulled } : {}), leads: nulled ? "nulled" : "not nulled" }),
    };
    if (await write({ kind: "measured", body })) setTyped("");
  };
  return (
    <div className="form">
      <Select
        size="lg"
        label={words.what}
        data={Object.entries(quantities).flatMap(([value, { live: isLive }]) =>
          deadOnly && isLive ? [] : [{ value, label: words.quantities[value] ?? value }],
        )}
        value={what}
        onChange={(value) => setWhat(value ?? "shows")}
        allowDeselect={false}
      />
      {points && (
        <>
          <Select size="lg" label={words.from} searchable data={places} value={from} onChange={setFrom} limit={40} />
          <Select size="lg" label={words.to} searchable data={places} value={to} onChange={setTo} limit={40} />
        </>
      )}
      {live ? (
        <>
          <Select
            size="lg"
            label={words.step}
            data={desk.steps.map((id) => ({ value: id, label: id }))}
            value={step}
            onChange={setStep}
          />
          <p className="trouble">{words.liveCare}</p>
        </>
      ) : (
        <>
          <MultiSelect
            size="lg"
            label={words.pulled}
            data={desk.plugs.map((id) => ({ value: id, label: id }))}
            value={pulled}
            onChange={setPulled}
          />
          <Checkbox
            size="lg"
            label={words.nulled}
            checked={nulled}
            onChange={(event) => setNulled(event.currentTarget.checked)}
          />
        </>
      )}
      {!asks && (
        <TextInput
          size="lg"
          label={words.shown}
          autoComplete="off"
          value={typed}
          onChange={(event) => setTyped(event.currentTarget.value)}
          error={typed.trim() === "" || read.ok ? undefined : text.step.unread(typed)}
        />
      )}
      <Button size="lg" disabled={!ready} onClick={record}>
        {asks ? text.practice.findOut : text.step.record}
      </Button>
    </div>
  );
}
