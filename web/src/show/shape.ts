// What a sketch draws: faces as loops of points (an outline, then its holes), and lines.

import type { Facets, Model, Point } from "../api/types";

export interface Shape {
  mark: string;
  faces: Point[][][];
  lines: [Point, Point][];
  /** A solid body: only its visible faces are drawn, with their edges. */
  solid?: boolean;
}

export function panelShape({ mark, solid }: Model["panels"][number]): Shape {
  return {
    mark,
    faces: solid.triangles.map((corners) => [corners.map((corner) => solid.points[corner]!)]),
    lines: solid.edges.map(([from, to]) => [solid.points[from]!, solid.points[to]!]),
  };
}

export function facetShape(mark: string, { points_m, faces }: Facets): Shape {
  const loops = faces.map((face) => face.map((loop) => loop.map((corner) => points_m[corner]!)));
  return { mark, faces: loops, lines: loops.flat().flatMap(around), solid: true };
}

function around(loop: Point[]): [Point, Point][] {
  return loop.map((point, index) => [point, loop[(index + 1) % loop.length]!]);
}
