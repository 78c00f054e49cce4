import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import { Database } from "../../store/database.ts";
import { nextId } from "../../store/ids.ts";
import { Ledger } from "../../store/ledger.ts";
import { tellOwnShop } from "../engine/client.ts";
import { addExamplesOnce } from "../jobs/add-examples.ts";

/** What this device remembers of its owner's wishes. */
export interface Settings {
  readonly person: string;
  readonly device: string;
  readonly theme: "auto" | "light" | "dark" | "contrast";
  readonly hand: "right" | "left";
  /** What the shop says of itself, in the words of a cost file: `readOwnShop` reads it. */
  readonly own?: object;
  /** The shop's own mark: an SVG, or a picture as a data address. */
  readonly logo?: string | undefined;
  /** What this device's invoice numbers begin with, and the first of them. */
  readonly series?: { readonly prefix: string; readonly first: number };
  readonly size?: "A4" | "LETTER";
  /** By whose rules it is tested after a repair, and with what; none while nobody chose. */
  readonly safety?: SafetyHabit;
}

export interface SafetyHabit {
  /** Rule set by its id. */
  readonly rules?: string;
  readonly instrument?: string;
  /** ISO 8601 */
  readonly calibrated?: string;
  /** Whose accuracy stands in for a reading's own: an instrument by its id, by test. */
  readonly meters?: Readonly<Record<string, string>>;
}

const atFirst: Omit<Settings, "device"> = { person: "", theme: "auto", hand: "right" };

export interface AppState {
  readonly db: Database;
  readonly ledger: Ledger;
  readonly settings: Settings;
  readonly change: (change: Partial<Settings>) => Promise<void>;
}

const Context = createContext<AppState | undefined>(undefined);
const db = new Database();

/** The store and the settings, for every screen below. Nothing is shown before they are there. */
export function AppStateProvider({ children }: { readonly children: ReactNode }) {
  const [settings, setSettings] = useState<Settings>();
  useEffect(() => {
    readSettings().then(setSettings);
  }, []);
  useEffect(() => {
    if (settings === undefined) return;
    const { dataset } = document.documentElement;
    dataset.theme = settings.theme;
    dataset.hand = settings.hand;
  }, [settings]);
  const state = useMemo((): AppState | undefined => {
    if (settings === undefined) return undefined;
    const { device, person } = settings;
    return {
      db,
      ledger: new Ledger(db, { device, person }),
      settings,
      change: async (change) => {
        const next = { ...settings, ...change };
        await db.settings.put({ key: "settings", value: next });
        tellOwnShop(next.own);
        setSettings(next);
      },
    };
  }, [settings]);
  useEffect(() => {
    if (state !== undefined) addExamplesOnce(state.db, state.ledger).catch((error) => console.warn(error));
  }, [state]);
  return state === undefined ? null : <Context.Provider value={state}>{children}</Context.Provider>;
}

async function readSettings(): Promise<Settings> {
  const kept = (await db.settings.get("settings"))?.value as Partial<Settings> | undefined;
  const settings = { ...atFirst, device: nextId(), ...kept };
  tellOwnShop(settings.own);
  if (kept?.device === undefined) await db.settings.put({ key: "settings", value: settings });
  return settings;
}

export function useApp(): AppState {
  const state = useContext(Context);
  if (state === undefined) throw new Error("no AppStateProvider above this screen");
  return state;
}
