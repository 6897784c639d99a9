// Utilisation and bulge by panel and seam, for one load case or the worst of all: the largest figures of
// the strength check, nothing computed.

import type { Plan, Point } from "../api/types";

export interface Utilisation {
  mark: string;
  use: number | null;
  bulge_m: number | null;
  at_m: Point | null;
  /** What the load case is called. */
  loadCase: string;
}

/** The load cases of a plan by their ids, which no change of units or language changes. */
export function loadCases(plan: Plan): Map<string, string> {
  const { whole, spans } = plan.strength;
  return new Map(
    whole
      ? whole.load_cases.map((one) => [one.id, one.name])
      : spans.map((span) => [span.load_case_id, span.load_case]),
  );
}

/** One row per panel and seam, highest utilisation first. */
export function utilisations(plan: Plan, loadCase: string | null): Utilisation[] {
  const best = new Map<string, Utilisation>();
  const take = (now: Utilisation) => {
    const before = best.get(now.mark);
    if (!before) best.set(now.mark, now);
    else {
      const harder = (now.use ?? Infinity) > (before.use ?? Infinity) ? now : before;
      const bulge_m = Math.max(now.bulge_m ?? 0, before.bulge_m ?? 0);
      best.set(now.mark, { ...harder, bulge_m: now.bulge_m === null && before.bulge_m === null ? null : bulge_m });
    }
  };
  const { whole, spans } = plan.strength;
  for (const one of whole?.load_cases ?? []) {
    if (loadCase !== null && one.id !== loadCase) continue;
    for (const { panel, outward_m, bulge_at_m, utilisation } of one.panels) {
      take({ mark: panel, use: utilisation, bulge_m: outward_m, at_m: bulge_at_m, loadCase: one.name });
    }
    for (const { seam, at_m, utilisation } of one.seams) {
      take({ mark: seam, use: utilisation, bulge_m: null, at_m, loadCase: one.name });
    }
  }
  if (!whole) {
    for (const { panel, load_case, load_case_id, deflection_m, utilisation, covered } of spans) {
      if (loadCase !== null && load_case_id !== loadCase) continue;
      take({ mark: panel, use: covered ? utilisation : null, bulge_m: deflection_m, at_m: null, loadCase: load_case });
    }
  }
  return [...best.values()].sort((a, b) => (b.use ?? Infinity) - (a.use ?? Infinity));
}
