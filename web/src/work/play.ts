// Playing the build: its frames one after another, how each place of a run is laid, and an order with a panel moved.

import type { BuildPlace, BuildRun, BuildStep, Point } from "../api/types";

/** A picture of the build: a step, and in it a place of a run. */
export interface Frame {
  step: number;
  /** Number of the run among those of the step, and of the place on it. */
  spot: { run: number; place: number } | null;
}

export type Laid = "reached" | "by_round_nozzle" | "unseen" | "unreached";

/** A panel that is set is looked at for this long, a place of a run for that long. */
const STEP_MS = 1100;
const PLACE_MS = 220;

export function framesOf(steps: readonly BuildStep[]): Frame[] {
  return steps.flatMap((step, number): Frame[] => {
    const spots = step.runs.flatMap((run, at) => run.places.map((_, place) => ({ run: at, place })));
    return spots.length === 0 ? [{ step: number, spot: null }] : spots.map((spot) => ({ step: number, spot }));
  });
}

export function timeOf(frame: Frame): number {
  return frame.spot === null ? STEP_MS : PLACE_MS;
}

export function laid(place: BuildPlace): Laid {
  if (!place.is_reached) return "unreached";
  if (!place.is_seen) return "unseen";
  return place.by_round_nozzle ? "by_round_nozzle" : "reached";
}

/** The stretches of a run that are laid alike, one after another. */
export function stretches({ line_m: [from, to], places }: BuildRun): { from: Point; to: Point; laid: Laid }[] {
  const whole = places.reduce((sum, place) => sum + place.stretch_m, 0);
  const at = (along: number): Point => {
    const share = whole > 0 ? along / whole : 0;
    return [0, 1, 2].map((axis) => from[axis]! + (to[axis]! - from[axis]!) * share) as Point;
  };
  const found: { from: Point; to: Point; laid: Laid }[] = [];
  let done = 0;
  for (const place of places) {
    const [start, end] = [at(done), at(done + place.stretch_m)];
    done += place.stretch_m;
    const last = found.at(-1);
    if (last?.laid === laid(place)) last.to = end;
    else found.push({ from: start, to: end, laid: laid(place) });
  }
  return found;
}

/** The list with one of its entries moved to another place. */
export function moved<T>(list: readonly T[], from: number, to: number): T[] {
  const rest = list.filter((_, index) => index !== from);
  const place = Math.max(0, Math.min(rest.length, to));
  return [...rest.slice(0, place), list[from]!, ...rest.slice(place)];
}
