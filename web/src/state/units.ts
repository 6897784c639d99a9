// Which units are shown. Every figure follows at once; sentences are the server's and are asked for anew.

import { signal } from "@preact/signals";

export type System = "metric" | "inch";

const KEPT = "brimful.units";

export const system = signal<System>(kept() ?? "metric");

export function showIn(chosen: System): void {
  system.value = chosen;
  localStorage.setItem(KEPT, chosen);
}

/** Takes the job's own units where nobody has chosen yet. */
export function followJob(units: unknown): void {
  if (kept() === null) system.value = units === "inch" ? "inch" : "metric";
}

function kept(): System | null {
  const value = localStorage.getItem(KEPT);
  return value === "metric" || value === "inch" ? value : null;
}
