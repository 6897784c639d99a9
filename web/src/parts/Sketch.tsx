// A sketch of panels in space as SVG: seen from a corner above, far faces first. Seams of the moment
// are thick and carry their marks. Needs no graphics card, and works offline.

import type { Point, Seam } from "../api/types";
import { ends } from "../show/seam";
import type { Shape } from "../show/shape";

interface SketchProps {
  shapes: readonly Shape[];
  /** Marks of panels that the moment is about. */
  lit?: readonly string[];
  seams?: readonly Seam[];
  label: string;
  /** The tank was turned over. */
  over?: boolean;
}

const TURN = Math.PI / 5;
const TILT = Math.PI / 6.5;

export function Sketch({ shapes, lit = [], seams = [], label, over = false }: SketchProps) {
  const eye = over ? -1 : 1;
  const all = shapes
    .flatMap(({ mark, faces, solid = false }) =>
      faces.map((loops) => {
        const outlines = loops.map((loop) => loop.map((point) => onPaper(point, eye)));
        const outline = outlines[0]!;
        return { mark, outlines, look: solid ? `whole ${facing(loops[0]!)}` : "", hidden: solid && area(outline) > 0, depth: outline.reduce((sum, point) => sum + point[2], 0) / outline.length };
      }),
    )
    .sort((one, other) => one.depth - other.depth);
  const [drawn, behind] = [all.filter(({ hidden }) => !hidden), all.filter(({ hidden }) => hidden)];
  const edges = shapes.filter(({ solid }) => !solid).flatMap(({ mark, lines }) => lines.map((line) => ({ mark, tips: line.map((end) => onPaper(end, eye)) })));
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
        const [from, to] = (ends(seam) ?? []).map((end) => onPaper(end, eye));
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

/** Twice the area of an outline on the paper, which counts down: less than nought where it faces the eye. */
function area(outline: readonly Point[]): number {
  return outline.reduce((sum, [x, y], index) => {
    const [nextX, nextY] = outline[(index + 1) % outline.length]!;
    return sum + x * nextY - nextX * y;
  }, 0);
}

/** Which way a face looks, by the greatest part of its normal: light falls from above. */
function facing(outline: readonly Point[]): "up" | "along" | "across" {
  const part = (u: 0 | 1 | 2, v: 0 | 1 | 2) => Math.abs(outline.reduce((sum, point, index) => sum + point[u] * outline[(index + 1) % outline.length]![v] - outline[(index + 1) % outline.length]![u] * point[v], 0));
  const [x, y, z] = [part(1, 2), part(2, 0), part(0, 1)];
  return z >= Math.max(x, y) ? "up" : x >= y ? "along" : "across";
}

function closed(outline: readonly Point[]): string {
  return `M${outline.map(([across, down]) => `${across} ${down}`).join("L")}Z`;
}

/** Across, down, and nearness to the eye. With `eye` -1 the tank was rolled over along x. */
function onPaper([x, y, z]: Point, eye: number): Point {
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
