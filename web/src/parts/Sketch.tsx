// A sketch of panels in space as SVG: seen from a corner above, far faces first. Highlighted
// seams are thick and labelled. It needs no WebGL, and works offline.

import type { Point, Seam } from "../api/types";
import { ends } from "../show/seam";
import type { Shape } from "../show/shape";

interface SketchProps {
  shapes: readonly Shape[];
  /** Marks of highlighted panels. */
  lit?: readonly string[];
  seams?: readonly Seam[];
  label: string;
  /** The tank is upside down. */
  over?: boolean;
}

const TURN = Math.PI / 5;
const TILT = Math.PI / 6.5;

export function Sketch({ shapes, lit = [], seams = [], label, over = false }: SketchProps) {
  const eye = over ? -1 : 1;
  const all = shapes
    .flatMap(({ mark, faces, solid = false }) =>
      faces.map((loops) => {
        const outlines = loops.map((loop) => loop.map((point) => project(point, eye)));
        const outline = outlines[0]!;
        return { mark, outlines, look: solid ? `whole ${facing(loops[0]!)}` : "", hidden: solid && area(outline) > 0, depth: outline.reduce((sum, point) => sum + point[2], 0) / outline.length };
      }),
    )
    .sort((one, other) => one.depth - other.depth);
  const [drawn, behind] = [all.filter(({ hidden }) => !hidden), all.filter(({ hidden }) => hidden)];
  const edges = shapes.filter(({ solid }) => !solid).flatMap(({ mark, lines }) => lines.map((line) => ({ mark, tips: line.map((end) => project(end, eye)) })));
  const corners = [...edges.flatMap((edge) => edge.tips), ...drawn.flatMap(({ outlines }) => outlines.flat())];
  if (corners.length === 0) return <p class="empty">–</p>;
  const [low, high] = bounds(corners);
  const width = high[0] - low[0];
  const height = high[1] - low[1];
  const pen = Math.max(width, height) / 250;
  const pad = pen * 14;
  return (
    <svg
      class="sketch"
      role="img"
      aria-label={label}
      viewBox={`${low[0] - pad} ${low[1] - pad} ${width + 2 * pad} ${height + 2 * pad}`}
      style={{ "--pen": pen }}
    >
      {drawn.map(({ mark, outlines, look }, index) => (
        <path key={index} class={`face ${look} ${lit.includes(mark) ? "lit" : ""}`} fill-rule="evenodd" d={outlines.map(closed).join("")} />
      ))}
      {behind.map(({ outlines }, index) => (
        <path key={index} class="behind" d={outlines.map(closed).join("")} />
      ))}
      {edges.map(({ mark, tips }, index) => (
        <line key={index} class={lit.includes(mark) ? "edge lit" : "edge"} {...between(tips)} />
      ))}
      {seams.map((seam) => {
        const [from, to] = (ends(seam) ?? []).map((end) => project(end, eye));
        if (!from || !to) return null;
        return (
          <g key={seam.mark} class="seam">
            <line {...between([from, to])} />
            <text x={(from[0] + to[0]) / 2} y={(from[1] + to[1]) / 2} font-size={pen * 9}>
              {seam.mark}
            </text>
          </g>
        );
      })}
    </svg>
  );
}

/** Twice the signed area of an outline in the sketch, whose y axis points down: negative where it faces the viewer. */
function area(outline: readonly Point[]): number {
  return outline.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = outline[(index + 1) % outline.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
}

/** Which way a face points, by the largest component of its normal: the light is above. */
function facing(outline: readonly Point[]): "up" | "along" | "across" {
  const part = (u: 0 | 1 | 2, v: 0 | 1 | 2) => Math.abs(outline.reduce((sum, point, index) => sum + point[u] * outline[(index + 1) % outline.length]![v] - outline[(index + 1) % outline.length]![u] * point[v], 0));
  const [x, y, z] = [part(1, 2), part(2, 0), part(0, 1)];
  return z >= Math.max(x, y) ? "up" : x >= y ? "along" : "across";
}

function closed(outline: readonly Point[]): string {
  return `M${outline.map(([across, down]) => `${across} ${down}`).join("L")}Z`;
}

/** Right, down, and nearness to the viewer. With `eye` -1 the tank is turned over about x. */
function project([x, y, z]: Point, eye: number): Point {
  const across = x * Math.cos(TURN) - eye * y * Math.sin(TURN);
  const deep = x * Math.sin(TURN) + eye * y * Math.cos(TURN);
  const up = eye * z;
  return [across, -(up * Math.cos(TILT) + deep * Math.sin(TILT)), up * Math.sin(TILT) - deep * Math.cos(TILT)];
}

function bounds(points: readonly Point[]): [Point, Point] {
  const low: Point = [...points[0]!];
  const high: Point = [...points[0]!];
  for (const point of points) {
    for (const axis of [0, 1, 2] as const) {
      low[axis] = Math.min(low[axis], point[axis]);
      high[axis] = Math.max(high[axis], point[axis]);
    }
  }
  return [low, high];
}

function between([from, to]: readonly Point[]) {
  return { x1: from![0], y1: from![1], x2: to![0], y2: to![1] };
}
