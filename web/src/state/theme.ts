// Light or dark theme: by the device's preference, or as chosen at the bench.

import { signal } from "@preact/signals";

export type Theme = "light" | "dark";
const KEY = "brimful.theme";

export const theme = signal<Theme>(
  (localStorage.getItem(KEY) as Theme | null) ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light"),
);

export function setTheme(to: Theme): void {
  theme.value = to;
  localStorage.setItem(KEY, to);
  showTheme();
}

/** Applies the theme to the page. */
export function showTheme(): void {
  document.documentElement.dataset.theme = theme.value;
}
