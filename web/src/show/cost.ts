// What a fix costs, in a sentence.

import type { Adds } from "../api/types";
import { plan } from "../state/job";
import { words } from "../words";
import { hours, mass, number, run, volume } from "./figure";

/** A smaller loss of capacity is not mentioned, m³. */
const SMALL_LOSS = 0.0005;

export function costOf({ sheet_kg, rod_m, hours_s, rated_m3, money }: Adds): string {
  const { hold } = words;
  const currency = plan.value?.job.quote.currency ?? "";
  return [
    hold.adds(mass(sheet_kg), run(rod_m), hours(hours_s)),
    rated_m3 < -SMALL_LOSS && hold.holdsLess(volume(-rated_m3)),
    money !== null && hold.costs(`${number(money, 2)} ${currency}`.trim()),
  ]
    .filter(Boolean)
    .join(" ");
}
