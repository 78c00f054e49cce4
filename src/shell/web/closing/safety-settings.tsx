import { TextInput } from "@mantine/core";
import { useEffect, useState } from "react";
import { askEngine } from "../engine/client.ts";
import type { RuleSetOffer } from "../engine/closing-view.ts";
import { closingText } from "../english-closing.ts";
import { type SafetyHabit, useApp } from "../shell/app-state.tsx";
import { RulesChoice } from "./setting.tsx";

/** By whose rules this device's owner tests, and with what. */
export function SafetySettings() {
  const { settings, change } = useApp();
  const [rules, setRules] = useState<readonly RuleSetOffer[]>([]);
  useEffect(() => {
    askEngine({ do: "safety offers" }).then((offers) => setRules(offers.rules));
  }, []);
  const { safety } = settings;
  const set = (changed: SafetyHabit) => change({ safety: { ...safety, ...changed } });
  return (
    <section>
      <h2>{closingText.settings.title}</h2>
      <div className="form">
        <RulesChoice rules={rules} value={safety?.rules ?? ""} onChange={(id) => set({ rules: id })} />
        <TextInput
          size="lg"
          label={closingText.setting.instrument}
          defaultValue={safety?.instrument ?? ""}
          onBlur={(event) => set({ instrument: event.currentTarget.value.trim() })}
        />
        <TextInput
          size="lg"
          type="date"
          label={closingText.setting.calibrated}
          defaultValue={safety?.calibrated ?? ""}
          onBlur={(event) => set({ calibrated: event.currentTarget.value })}
        />
      </div>
    </section>
  );
}
