// The display units. Every figure follows at once; sentences come from the server and are requested again.

import { signal } from "@preact/signals";

export type System = "metric" | "inch";

const KEY = "brimful.units";

export const system = signal<System>(stored() ?? "metric");
/** The smallest fraction of an inch in which lengths are shown. */
export const inchParts = signal(16);

export function showIn(units: System): void {
  performance.mark("units");
  system.value = units;
  localStorage.setItem(KEY, units);
}

/** Takes the job's units where the user has not chosen any, and its smallest fraction of an inch. */
export function followJob(units: unknown, fraction?: unknown): void {
  inchParts.value = fraction === "1/32" ? 32 : 16;
  if (stored() === null) system.value = units === "inch" ? "inch" : "metric";
}

function stored(): System | null {
  const value = localStorage.getItem(KEY);
  return value === "metric" || value === "inch" ? value : null;
}
