import "@mantine/core/styles.css";
import "./look/look.css";
import "./look/state.css";
import "./look/step.css";
import "./look/keys.css";
import { MantineProvider } from "@mantine/core";
import { StrictMode } from "react";
import { createRoot } from "react-dom/client";
import { App } from "./app.tsx";
import { theme } from "./look/theme.ts";
import { keepOffline } from "./offline/keep-offline.ts";
import { AppStateProvider } from "./shell/app-state.tsx";

const root = document.getElementById("root");
if (root === null) throw new Error("index.html has no #root");
createRoot(root).render(
  <StrictMode>
    <MantineProvider theme={theme} defaultColorScheme="auto">
      <AppStateProvider>
        <App />
      </AppStateProvider>
    </MantineProvider>
  </StrictMode>,
);
keepOffline();
