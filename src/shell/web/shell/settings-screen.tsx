import { Radio, Stack, TextInput } from "@mantine/core";
import { useEffect } from "react";
import { useLocation } from "wouter";
import { SafetySettings } from "../closing/safety-settings.tsx";
import { text } from "../english.ts";
import { addExamples } from "../jobs/add-examples.ts";
import { OwnShopForm } from "../papers/own-shop.tsx";
import { type Settings, useApp } from "./app-state.tsx";
import { Copies } from "./copies.tsx";

/** What this device does as its owner wishes. */
export function SettingsScreen() {
  const { settings, change, db, ledger } = useApp();
  const [path, go] = useLocation();
  const words = text.settings;
  // `/settings/shop`: who is sent here for one thing sees it first.
  useEffect(() => {
    const [, , at = ""] = path.split("/");
    document.getElementById(at)?.scrollIntoView();
  }, [path]);
  return (
    <main className="column">
      <h1>{words.title}</h1>
      <Stack gap="lg">
        <TextInput
          size="lg"
          label={words.person}
          defaultValue={settings.person}
          onBlur={(event) => change({ person: event.currentTarget.value.trim() })}
        />
        <Choice
          label={words.theme}
          value={settings.theme}
          choices={words.themes}
          onChange={(theme) => change({ theme: theme as Settings["theme"] })}
        />
        <Choice
          label={words.hand}
          value={settings.hand}
          choices={words.hands}
          onChange={(hand) => change({ hand: hand as Settings["hand"] })}
        />
      </Stack>
      <SafetySettings />
      <Copies />
      <OwnShopForm />
      <section>
        <h2>{text.jobs.demo}</h2>
        <p>{text.jobs.demoAbout}</p>
        <button type="button" className="big-key quiet" onClick={() => addExamples(db, ledger).then(() => go("/"))}>
          {text.jobs.demoBack}
        </button>
      </section>
    </main>
  );
}

function Choice(props: {
  readonly label: string;
  readonly value: string;
  readonly choices: Readonly<Record<string, string>>;
  readonly onChange: (value: string) => void;
}) {
  return (
    <Radio.Group label={props.label} value={props.value} onChange={props.onChange} size="lg">
      <div className="choices">
        {Object.entries(props.choices).map(([value, says]) => (
          <Radio key={value} value={value} label={says} size="lg" />
        ))}
      </div>
    </Radio.Group>
  );
}
