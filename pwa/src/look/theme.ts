/** The sheet's theme: as the phone has it, or one chosen and kept. */

import { effect, signal } from "@preact/signals";

export const THEMES = ["auto", "sheet", "night", "sunlight"] as const;
export type Theme = (typeof THEMES)[number];

// localStorage and not the phone's database: it must be known before the first paint.
const KEY = "pinchbolt-theme";

function kept(): Theme {
  try {
    const found = localStorage.getItem(KEY);
    return THEMES.find((one) => one === found) ?? "auto";
  } catch {
    return "auto";
  }
}

export const theme = signal<Theme>(kept());

const SHEET: Record<Exclude<Theme, "auto">, string> = { sheet: "#F7F4EC", night: "#10171D", sunlight: "#FFFFFF" };

/** Apply the theme now and whenever it changes. Call once, before the first paint. */
export function startTheme(): void {
  const metas = [...document.querySelectorAll<HTMLMetaElement>('meta[name="theme-color"]')];
  const before = metas.map((meta) => meta.content);
  effect(() => {
    const chosen = theme.value;
    if (chosen === "auto") delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = chosen;
    metas.forEach((meta, i) => {
      meta.content = chosen === "auto" ? (before[i] ?? "") : SHEET[chosen];
    });
    try {
      localStorage.setItem(KEY, chosen);
    } catch {
      // Not allowed to keep it: then it holds until the page closes.
    }
  });
}
