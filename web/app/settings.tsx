import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import { I18nProvider } from "react-aria-components";
import { type Say, words } from "../../words/catalogue.ts";
import { type Format, format, METRIC, type Preferences } from "../../words/format.ts";

/** How this tablet shows things; kept on it, never in the book. */
export interface Settings extends Preferences {
  readonly ground: "linen" | "dark";
  /** Who writes the log here. */
  readonly name: string;
}

const DEFAULT: Settings = { ...METRIC, ground: "linen", name: "" };
const KEY = "tournant.settings";

interface SettingsHere {
  readonly settings: Settings;
  readonly change: (more: Partial<Settings>) => void;
  readonly say: Say;
  readonly write: Format;
}

const Here = createContext<SettingsHere | undefined>(undefined);

/** Settings, words and figures for everything below. */
export function SettingsProvider({ children }: { readonly children: ReactNode }) {
  const [settings, setSettings] = useState<Settings>(read);
  const spoken = useMemo(() => words(settings.locale), [settings.locale]);
  useEffect(() => {
    document.documentElement.lang = settings.locale.split("-")[0] ?? "en";
    document.documentElement.dir = spoken.direction;
    document.documentElement.dataset.ground = settings.ground;
  }, [settings, spoken]);
  const here = useMemo<SettingsHere>(
    () => ({
      settings,
      change: (more) =>
        setSettings((before) => {
          const after = { ...before, ...more };
          keep(after);
          return after;
        }),
      say: spoken.say,
      write: format(settings),
    }),
    [settings, spoken],
  );
  return (
    <I18nProvider locale={settings.locale}>
      <Here value={here}>{children}</Here>
    </I18nProvider>
  );
}

export function useSettings(): SettingsHere {
  const here = useContext(Here);
  if (!here) throw new Error("settings are used outside of their provider");
  return here;
}

/** Words and figures, the two things nearly every part needs. */
export function useWords(): { readonly say: Say; readonly write: Format } {
  return useSettings();
}

function read(): Settings {
  try {
    return { ...DEFAULT, ...(JSON.parse(localStorage.getItem(KEY) ?? "{}") as Partial<Settings>) };
  } catch {
    return DEFAULT;
  }
}

function keep(settings: Settings): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // A private window keeps nothing: the settings last as long as the page.
  }
}
