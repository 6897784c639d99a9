// Which units are shown. Every figure follows at once; sentences are the server's and are asked for anew.

import { signal } from "@preact/signals";

export type System = "metric" | "inch";

const KEPT = "brimful.units";

export const system = signal<System>(kept() ?? "metric");
/** Parts of an inch that lengths are shown to, by the job. */
export const inchParts = signal(16);

export function showIn(chosen: System): void {
  system.value = chosen;
  localStorage.setItem(KEPT, chosen);
}

/** Takes the job's own units where nobody has chosen yet, and its smallest fraction of an inch. */
export function followJob(units: unknown, fraction?: unknown): void {
  inchParts.value = fraction === "1/32" ? 32 : 16;
  if (kept() === null) system.value = units === "inch" ? "inch" : "metric";
}

function kept(): System | null {
  const value = localStorage.getItem(KEPT);
  return value === "metric" || value === "inch" ? value : null;
}
