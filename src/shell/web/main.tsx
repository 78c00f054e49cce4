import "./look/library.css";
import "./look/look.css";
import "./look/state.css";
import "./look/circuit.css";
import "./look/step.css";
import "./look/keys.css";
import "./look/sheet.css";
import { MantineProvider } from "@mantine/core";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { askEngine } from "./engine/client.ts";
import { theme } from "./look/theme.ts";
import { keepOffline } from "./offline/keep-offline.ts";
import { AppStateProvider, useApp } from "./shell/app-state.tsx";

/** The library's own parts follow the theme that the settings choose; left to the device, they follow the device. */
function Themed() {
  const { theme: chosen } = useApp().settings;
  const forced =
    chosen === "auto" ? {} : { forceColorScheme: chosen === "dark" ? ("dark" as const) : ("light" as const) };
  return (
    <MantineProvider theme={theme} defaultColorScheme="auto" {...forced}>
      <App />
    </MantineProvider>
  );
}

const root = document.getElementById("root");
if (root === null) throw new Error("index.html has no #root");
createRoot(root).render(
  <StrictMode>
    <AppStateProvider>
      <Themed />
    </AppStateProvider>
  </StrictMode>,
);
keepOffline();
askEngine({ do: "wake" });
