import { Checkbox, Radio, TextInput } from "@mantine/core";
import { useState } from "react";
import { dayText, isDay } from "../../../core/day/index.ts";
import type { SafetySetting } from "../../../core/ledger/index.ts";
import type { ClosingView, RuleSetOffer } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import type { Write } from "../job/job-screen.tsx";
import { useApp } from "../shell/app-state.tsx";
import { Faults } from "./faults.tsx";
import { useCheckedWrite } from "./use-checked-write.ts";

const words = closingText.setting;
/** Square millimetres of household cords (common practice). */
const SECTIONS = ["0.75", "1", "1.25", "1.5", "2.5"] as const;
const UNKNOWN = "";

/** By whose rules, and what is tested: asked once a job, begun with what the device and the sheet know. */
export function SettingForm(props: { readonly view: ClosingView; readonly write: Write; readonly onDone: () => void }) {
  const { view, write, onDone } = props;
  const { settings, change } = useApp();
  const { put, faults } = useCheckedWrite(write);
  const { setting } = view;
  const [form, setForm] = useState({
    rules: setting?.rules ?? settings.safety?.rules ?? "",
    protection: setting?.protection ?? view.protection,
    cord: text(setting?.cordMetres),
    section: text(setting?.cordSection),
    heating: text(setting?.heatingWatts),
    portable: setting?.isPortable ?? false,
    bareMetal: setting?.hasBareMetal ?? false,
    surge: setting?.hasSurgeSuppressors ?? false,
    instrument: setting?.instrument ?? settings.safety?.instrument ?? "",
    calibrated: setting?.calibrated ?? settings.safety?.calibrated ?? "",
  });
  const set = (changed: Partial<typeof form>) => setForm((before) => ({ ...before, ...changed }));
  const begin = async () => {
    const { rules, instrument, calibrated } = form;
    const isWritten = await put({
      kind: "safety",
      body: {
        rules,
        class: form.protection,
        ...given("cord", form.cord),
        ...given("section", form.section),
        ...given("heating", form.heating.trim() === "" ? "" : `${form.heating} W`),
        portable: yesNo(form.portable),
        "bare metal": yesNo(form.bareMetal),
        "surge suppressors": yesNo(form.surge),
        ...given("instrument", instrument),
        ...given("calibrated", calibrated),
      },
    });
    if (!isWritten) return;
    await change({ safety: { ...settings.safety, rules, instrument, calibrated } });
    onDone();
  };
  return (
    <form
      className="form"
      onSubmit={(event) => {
        event.preventDefault();
        begin();
      }}
    >
      <RulesChoice rules={view.rules} value={form.rules} onChange={(rules) => set({ rules })} />
      <Radio.Group
        label={words.protection}
        size="lg"
        value={form.protection}
        onChange={(protection) => set({ protection: protection as typeof form.protection })}
      >
        <div className="choices">
          {Object.entries(words.classes).map(([value, says]) => (
            <Radio key={value} size="lg" value={value} label={says} />
          ))}
        </div>
      </Radio.Group>
      <NumberField label={words.cord} value={form.cord} onChange={(cord) => set({ cord })} />
      <Radio.Group label={words.section} size="lg" value={form.section} onChange={(section) => set({ section })}>
        <div className="choices beside-one-another">
          {SECTIONS.map((value) => (
            <Radio key={value} size="lg" value={value} label={words.squareMillimetres(value)} />
          ))}
          <Radio size="lg" value={UNKNOWN} label={words.unknown} />
        </div>
      </Radio.Group>
      <NumberField label={words.heating} value={form.heating} onChange={(heating) => set({ heating })} />
      <Box label={words.portable} checked={form.portable} onChange={(portable) => set({ portable })} />
      <Box label={words.bareMetal} checked={form.bareMetal} onChange={(bareMetal) => set({ bareMetal })} />
      <Box label={words.surge} checked={form.surge} onChange={(surge) => set({ surge })} />
      <TextInput
        size="lg"
        label={words.instrument}
        value={form.instrument}
        onChange={(event) => set({ instrument: event.currentTarget.value })}
      />
      <TextInput
        size="lg"
        type="date"
        label={words.calibrated}
        value={form.calibrated}
        onChange={(event) => set({ calibrated: event.currentTarget.value })}
      />
      <p className="faint">
        {words.calibratedWhy} {words.kept}
      </p>
      <Faults faults={faults} />
      <button type="submit" className="big-key" disabled={form.rules === ""}>
        {words.begin}
      </button>
    </form>
  );
}

/** Rule sets by country and edition; how far the text of each was read stands with it. */
export function RulesChoice(props: {
  readonly rules: readonly RuleSetOffer[];
  readonly value: string;
  readonly onChange: (id: string) => void;
}) {
  return (
    <Radio.Group label={words.rules} size="lg" value={props.value} onChange={props.onChange}>
      <div className="choices">
        {props.rules.map(({ id, says, edition, status }) => (
          <Radio key={id} size="lg" value={id} label={says} description={`${edition}; ${words.status[status]}`} />
        ))}
      </div>
    </Radio.Group>
  );
}

/** What was set, in a few lines. */
export function SettingLine(props: {
  readonly view: ClosingView;
  readonly setting: SafetySetting;
  readonly onChange: () => void;
}) {
  const { view, setting } = props;
  const rules = view.rules.find(({ id }) => id === setting.rules);
  const facts = [
    words.of(setting.protection),
    words.cordOf(setting.cordMetres, setting.cordSection),
    ...(view.insulationVolts === undefined ? [] : [words.volts(view.insulationVolts)]),
  ];
  return (
    <div className="setting-line">
      <p>
        <b>{rules?.says ?? setting.rules}</b>
        {rules !== undefined && ` (${rules.edition}; ${words.status[rules.status]})`}
      </p>
      <p>{facts.join(" · ")}</p>
      <p>
        {setting.instrument === undefined || setting.calibrated === undefined
          ? words.noInstrument
          : `${words.instrument}: ${setting.instrument} · ${words.calibrated}: ${isDay(setting.calibrated) ? dayText(setting.calibrated) : setting.calibrated}`}
      </p>
      <button type="button" className="small-key" onClick={props.onChange}>
        {words.change}
      </button>
    </div>
  );
}

function NumberField(props: {
  readonly label: string;
  readonly value: string;
  readonly onChange: (typed: string) => void;
}) {
  return (
    <TextInput
      size="lg"
      inputMode="decimal"
      label={props.label}
      value={props.value}
      onChange={(event) => props.onChange(event.currentTarget.value.replace(",", "."))}
    />
  );
}

function Box(props: {
  readonly label: string;
  readonly checked: boolean;
  readonly onChange: (checked: boolean) => void;
}) {
  return (
    <Checkbox
      size="lg"
      label={props.label}
      checked={props.checked}
      onChange={(event) => props.onChange(event.currentTarget.checked)}
    />
  );
}

function given(key: string, typed: string): Readonly<Record<string, string>> {
  return typed.trim() === "" ? {} : { [key]: typed.trim() };
}

function text(value: number | undefined): string {
  return value === undefined ? "" : String(value);
}

function yesNo(value: boolean): string {
  return value ? "yes" : "no";
}
