// Where a seam is drawn: along the outside, or inside where an inner panel meets a wall.

import type { Point, Seam } from "../api/types";

export function ends(seam: Seam): [Point, Point] | null {
  const line = seam.outer_line_m ?? seam.inner_line_m;
  const [from, to] = [line?.[0], line?.at(-1)];
  return from && to ? [from, to] : null;
}
