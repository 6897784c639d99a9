// Light or dark: as the device asks, or as was chosen at the bench.

import { signal } from "@preact/signals";

export type Light = "light" | "dark";
const KEPT = "brimful.light";

export const light = signal<Light>(
  (localStorage.getItem(KEPT) as Light | null) ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light"),
);

export function setLight(to: Light): void {
  light.value = to;
  localStorage.setItem(KEPT, to);
  showLight();
}

/** Shows the page as it was chosen. */
export function showLight(): void {
  document.documentElement.dataset.light = light.value;
}
