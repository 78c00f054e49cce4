import { Checkbox, Select, TextInput } from "@mantine/core";
import { useId, useState } from "react";
import type { MeteredTest } from "../../../core/safety/index.ts";
import type { ClosingView } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import type { Write } from "../job/job-screen.tsx";
import { useApp } from "../shell/app-state.tsx";
import { Digits } from "./digits.tsx";
import { Faults } from "./faults.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.tests;

/** In what each test is read. */
const UNITS: Readonly<Record<MeteredTest, string>> = {
  earth: "Ω",
  insulation: "MΩ",
  "protective current": "mA",
  "touch current": "mA",
};

/** What the instrument showed, with its ±; or that it could not be made, and why. */
export function TestValue(props: {
  readonly test: MeteredTest;
  readonly testers: ClosingView["testers"];
  readonly write: Write;
}) {
  const { test, write } = props;
  const { settings, change } = useApp();
  const { put, faults } = useCheckedWrite(write);
  const [typed, setTyped] = useState({ value: "", spread: "" });
  const [field, setField] = useState<keyof typeof typed>("value");
  const [isAbove, setAbove] = useState(false);
  const id = useId();
  const unit = UNITS[test];
  const testers = props.testers.filter(({ tests }) => tests.includes(test));
  const kept = settings.safety?.meters?.[test] ?? "";
  const meter = testers.some((one) => one.id === kept) ? kept : "";
  const record = async () => {
    const { value, spread } = typed;
    const own = spread.trim() === "" ? "" : ` ±${spread.trim()} ${unit}`;
    const shows = `${isAbove ? "> " : ""}${value.trim()} ${unit}${isAbove ? "" : own}`;
    await put({ kind: "tested", body: { test, shows, ...(meter === "" ? {} : { meter }) } });
  };
  return (
    <>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          record();
        }}
      >
        <div className="value-fields">
          {(["value", "spread"] as const).map((one) => (
            <label key={one} htmlFor={`${id} ${one}`} className={one === field ? "reading here" : "reading"}>
              {words[one](unit)}
              <input
                id={`${id} ${one}`}
                className="reading-input"
                autoComplete="off"
                inputMode="none"
                disabled={one === "spread" && isAbove}
                value={typed[one]}
                onFocus={() => setField(one)}
                onChange={(event) => setTyped({ ...typed, [one]: event.currentTarget.value.replace(",", ".") })}
              />
            </label>
          ))}
        </div>
        <Checkbox
          size="lg"
          mt="sm"
          label={words.above}
          checked={isAbove}
          onChange={(event) => setAbove(event.currentTarget.checked)}
        />
        {testers.length > 0 && !isAbove && (
          <Select
            size="lg"
            mt="sm"
            label={words.spreadBy}
            data={[{ value: "", label: words.nobody }, ...testers.map((one) => ({ value: one.id, label: one.says }))]}
            value={meter}
            allowDeselect={false}
            onChange={(chosen) =>
              change({
                safety: { ...settings.safety, meters: { ...settings.safety?.meters, [test]: chosen ?? "" } },
              })
            }
          />
        )}
        <Digits value={typed[field]} onChange={(value) => setTyped({ ...typed, [field]: value })} />
        <Faults faults={faults} />
        <button type="submit" className="big-key" disabled={typed.value.trim() === ""}>
          {words.record}
        </button>
      </form>
      <Cannot test={test} write={write} />
    </>
  );
}

function Cannot({ test, write }: { readonly test: MeteredTest; readonly write: Write }) {
  const [why, setWhy] = useState("");
  return (
    <details>
      <summary>{words.cannot}</summary>
      <TextInput
        size="lg"
        label={words.cannotWhy}
        value={why}
        onChange={(event) => setWhy(event.currentTarget.value)}
      />
      <button
        type="button"
        className="big-key quiet"
        disabled={why.trim() === ""}
        onClick={() => write({ kind: "tested", body: { test, cannot: why.trim() } })}
      >
        {words.cannotWrite}
      </button>
    </details>
  );
}
