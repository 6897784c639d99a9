// The screen of the phone at the bench: kept awake, light or dark as chosen.

import { signal } from "@preact/signals";

export const awake = signal(false);

export function keepAwake(): void {
  const ask = () =>
    navigator.wakeLock
      ?.request("screen")
      .then((lock) => {
        awake.value = true;
        lock.addEventListener("release", () => (awake.value = false));
      })
      .catch(() => (awake.value = false));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void ask();
  });
  void ask();
}

export type Light = "light" | "dark";
const KEPT = "brimful.light";

export const light = signal<Light>(
  (localStorage.getItem(KEPT) as Light | null) ?? (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light"),
);

export function setLight(to: Light): void {
  light.value = to;
  localStorage.setItem(KEPT, to);
  document.documentElement.dataset.light = to;
}
