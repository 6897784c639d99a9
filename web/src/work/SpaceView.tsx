// One view of the drawing: the model as lines, and blocks with drag handles.

import { useMemo, useRef } from "preact/hooks";
import type { Point, Solid } from "../api/types";
import { bareLength, length } from "../show/figure";
import { AXES, type View } from "../show/axes";
import { changeFrom, model } from "../state/job";
import { words } from "../words";
import { blocksOfJob, edgesAlong, moved, snapped, step, type Block, type Side } from "./drag";
import { useDrag, type Move } from "./useDrag";
import { Outline } from "./Outline";

interface ViewProps {
  view: View;
  clearance: number;
  drawing: boolean;
  drew: (low: [number, number], high: [number, number], view: View) => void;
}

interface Grip {
  key: string;
  side: Side;
  from: Move;
}

export function SpaceView({ view, clearance, drawing, drew }: ViewProps) {
  const svg = useRef<SVGSVGElement>(null);
  const drag = useDrag<Grip>(
    (one, other) => one.key === other.key && one.side === other.side,
    ({ key, side, from }, by) => {
      if (key === "new") {
        drawNew(from, by);
        return Promise.resolve();
      }
      // From where the block is by then: the user may be faster than the server.
      return changeFrom(() => {
        const block = blocksOfJob.value.find((one) => one.key === key);
        if (!block) return [];
        const { low, high } = moved(block, view, side, by);
        return block.edits(low, high);
      });
    },
  );
  const { held } = drag;
  const { across, up } = view;
  const all = blocksOfJob.value;
  const shapes = model.value;
  const solids = [shapes?.space, ...(shapes?.obstacles ?? []).map((one) => one.solid), ...(shapes?.panels ?? []).map((one) => one.solid)];
  const points = [...solids.flatMap((solid) => solid?.points ?? []), ...all.flatMap(({ low, high }) => [low, high])];
  if (points.length === 0) return null;
  const low = [across, up].map((axis) => Math.min(...points.map((point) => point[axis])));
  const high = [across, up].map((axis) => Math.max(...points.map((point) => point[axis])));
  const span = Math.max(high[0]! - low[0]!, high[1]! - low[1]!);
  const pad = span * 0.09;
  // Text, lines and handles scale with the width of the drawing.
  const wide = Math.max(high[0]! - low[0]! + 2 * pad, (high[1]! - low[1]! + 2 * pad) * 1.1);
  const box = `${low[0]! - pad} ${-high[1]! - pad} ${high[0]! - low[0]! + 2 * pad} ${high[1]! - low[1]! + 2 * pad}`;

  const where = (event: PointerEvent): Move => {
    const spot = new DOMPoint(event.clientX, event.clientY).matrixTransform(svg.current!.getScreenCTM()!.inverse());
    return [spot.x, -spot.y];
  };
  const snapDistance = span * 0.012;
  const room = all.find((block) => block.key === "space");
  /** The position of a corner that is being drawn: inside the space, snapped. */
  const corner = ([x, y]: Move): Move => {
    const one = (axis: 0 | 1 | 2, place: number) => {
      const near = snapped(place, edgesAlong(axis, all, "", clearance), snapDistance);
      return room ? Math.min(Math.max(near, room.low[axis]), room.high[axis]) : near;
    };
    return [one(across, x), one(up, y)];
  };
  const start = (key: string, side: Side) => (event: PointerEvent) => {
    const from = where(event);
    drag.start(event, { key, side, from: key === "new" ? corner(from) : from });
  };
  const move = (event: PointerEvent) =>
    drag.move(event, ({ key, side, from }) => {
      const block = all.find((one) => one.key === key);
      const now = block ? where(event) : corner(where(event));
      const by: Move = [now[0] - from[0], now[1] - from[1]];
      return block ? snappedMove(block, side, by) : by;
    });
  const snappedMove = (block: Block, side: Side, by: Move): Move => {
    const one = (axis: 0 | 1 | 2, low: boolean, way: number) => {
      const start = low ? block.low[axis] : block.high[axis];
      return snapped(start + way, edgesAlong(axis, all, block.key, clearance), snapDistance) - start;
    };
    return [one(across, side !== "right", by[0]), one(up, side !== "up", by[1])];
  };
  function drawNew(from: Move, by: Move): void {
    // A click draws nothing.
    if (by.some((way) => Math.abs(way) < snapDistance)) return;
    const to = [from[0] + by[0], from[1] + by[1]];
    drew([Math.min(from[0], to[0]!), Math.min(from[1], to[1]!)], [Math.max(from[0], to[0]!), Math.max(from[1], to[1]!)], view);
  }
  const nudge = (key: string, side: Side) => (event: KeyboardEvent) => {
    const by = arrow(event);
    if (!by) return;
    event.preventDefault();
    drag.nudge({ key, side, from: [0, 0] }, [by[0] * step(), by[1] * step()]);
  };

  return (
    <figure class="view">
      <figcaption>
        {words.space[view.key]} <small>{`${AXES[across]} →  ${AXES[up]} ↑`}</small>
      </figcaption>
      <svg
        ref={svg}
        viewBox={box}
        style={{ "--pen": wide / 220 }}
        class={drawing ? "drawing" : ""}
        role="group"
        aria-label={words.space[view.key]}
        onPointerDown={drawing ? start("new", "all") : undefined}
        onPointerMove={move}
        onPointerUp={drag.end}
        onPointerCancel={drag.cancel}
      >
        {shapes?.space && <Lines solid={shapes.space} view={view} kind="room" />}
        {shapes?.obstacles.map(({ name, solid }) => (
          <Lines key={name} solid={solid} view={view} kind="obstacle" />
        ))}
        {shapes?.panels.map(({ mark, solid }) => (
          <Lines key={mark} solid={solid} view={view} kind="panel" />
        ))}
        {shapes?.obstacles
          .filter(({ name }) => !all.some((block) => block.name === name))
          .map(({ name, solid }) => (
            <Name key={name} name={name} solid={solid} view={view} span={wide} />
          ))}
        {all.filter(({ only }) => only && only !== view.key).map((block) => (
          <rect key={block.key} class="way-in-edge" {...flat(block, view)} />
        ))}
        {!drawing &&
          all.filter(({ only }) => !only || only === view.key).map((block) => {
            const isHeld = held?.what.key === block.key;
            const now = isHeld ? { ...block, ...moved(block, view, held.what.side, held.by) } : block;
            return <Handles key={block.key} block={now} view={view} ends={[low[0]! - pad, high[0]! + pad]} span={wide} start={start} nudge={(side) => nudge(block.key, side)} release={drag.keyUp} held={isHeld} />;
          })}
        {!drawing && <Outline view={view} span={wide} />}
        {held?.what.key === "new" && (
          <rect
            class="fresh"
            x={Math.min(held.what.from[0], held.what.from[0] + held.by[0])}
            y={-Math.max(held.what.from[1], held.what.from[1] + held.by[1])}
            width={Math.abs(held.by[0])}
            height={Math.abs(held.by[1])}
          />
        )}
      </svg>
    </figure>
  );
}

/** A block as a rectangle of a view. */
function flat({ low, high }: Block, { across, up }: View) {
  return { x: low[across], y: -high[up], width: high[across] - low[across], height: high[up] - low[up] };
}

export function arrow(event: KeyboardEvent): [number, number] | null {
  const by = event.shiftKey ? 10 : 1;
  const ways: Record<string, [number, number]> = { ArrowLeft: [-by, 0], ArrowRight: [by, 0], ArrowUp: [0, by], ArrowDown: [0, -by] };
  return ways[event.key] ?? null;
}

function Lines({ solid, view, kind }: { solid: Solid; view: View; kind: string }) {
  const [edges, faces] = useMemo(() => drawn(solid, view), [solid, view]);
  return (
    <g class={`lines ${kind}`}>
      {kind === "obstacle" && <path class="fill" d={faces} />}
      <path d={edges} />
    </g>
  );
}

/** The edges of a solid and its faces that point at the viewer: those behind would cancel them. */
function drawn(solid: Solid, view: View): [string, string] {
  const spot = (point: Point) => `${point[view.across]} ${-point[view.up]}`;
  const edges = solid.edges.map(([from, to]) => `M${spot(solid.points[from]!)}L${spot(solid.points[to]!)}`);
  const faces = solid.triangles
    .map((corners) => corners.map((corner) => solid.points[corner]!))
    .filter(([a, b, c]) => turn(a!, b!, c!, view) > 0)
    .map((corners) => `M${corners.map(spot).join("L")}Z`);
  return [edges.join(""), faces.join("")];
}

/** The name of an obstacle without handles, under its upper edge. */
function Name({ name, solid, view: { across, up }, span }: { name: string; solid: Solid; view: View; span: number }) {
  const along = (axis: 0 | 1 | 2) => solid.points.map((point) => point[axis]);
  const middle = (Math.min(...along(across)) + Math.max(...along(across))) / 2;
  return (
    <text class="obstacle-name" x={middle} y={0.05 * span - Math.max(...along(up))} font-size={span * LETTER}>
      {short(name)}
    </text>
  );
}

/** Twice the signed area of a triangle in the view, positive where it points at the viewer. */
function turn(a: Point, b: Point, c: Point, { across, up }: View): number {
  return (b[across] - a[across]) * (c[up] - a[up]) - (c[across] - a[across]) * (b[up] - a[up]);
}

interface HandlesProps {
  block: Block;
  view: View;
  /** The left and right end of the drawing. */
  ends: [number, number];
  span: number;
  held: boolean;
  start: (key: string, side: Side) => (event: PointerEvent) => void;
  nudge: (side: Side) => (event: KeyboardEvent) => void;
  release: () => void;
}

/** A name shortened in the middle, since numbers are at its end; the labels of its handles have all of it. */
function short(name: string): string {
  return name.length > 16 ? `${name.slice(0, 9).trimEnd()}…${name.slice(-6).trimStart()}` : name;
}

/** Font size as a part of the width of the view; a letter is at most two thirds as wide. */
const LETTER = 0.032;

function Handles({ block, view: { across, up }, ends: [left, right], span, held, start, nudge, release }: HandlesProps) {
  const [x0, x1, y0, y1] = [block.low[across], block.high[across], -block.high[up], -block.low[up]];
  const sides: [Side, number, number, string][] = [
    ["right", x1, (y0 + y1) / 2, `${AXES[across]}1`],
    ["up", (x0 + x1) / 2, y0, `${AXES[up]}1`],
  ];
  if (!block.fixed) sides.push(["left", x0, (y0 + y1) / 2, `${AXES[across]}0`], ["down", (x0 + x1) / 2, y1, `${AXES[up]}0`]);
  const label = held ? `${bareLength(x1 - x0)} × ${bareLength(y1 - y0)}` : short(block.name);
  const half = (label.length * span * LETTER) / 3;
  const [x, y] = clearOfHandles();
  /** A position for the name inside the drawing that covers no handle of its block. */
  function clearOfHandles(): [number, number] {
    const [middle, quarter] = [(x0 + x1) / 2, (x1 - x0) / 4];
    const low = y1 - y0 < 0.2 * span;
    const inSight = Math.max(left + half, Math.min(middle, right - half));
    if (quarter > half + 0.02 * span) return [x0 + quarter, low ? (y0 + y1) / 2 + 0.35 * LETTER * span : y0 + 0.05 * span];
    return [inSight, low ? y1 + 0.05 * span : y0 + 0.05 * span];
  }
  const name = (side: string) => words.space.edge(block.name, words.space.sides[side as keyof typeof words.space.sides]);
  return (
    <g class={`block ${block.key.split("[")[0]!.replace(".", "-")} ${held ? "held" : ""}`}>
      <rect x={x0} y={y0} width={x1 - x0} height={y1 - y0} />
      {!block.fixed && (
        <circle
          class="move"
          cx={(x0 + x1) / 2}
          cy={(y0 + y1) / 2}
          r={span * 0.018}
          tabindex={0}
          role="button"
          aria-label={words.space.move(block.name)}
          onPointerDown={start(block.key, "all")}
          onKeyDown={nudge("all")}
          onKeyUp={release}
          onBlur={release}
        />
      )}
      {sides.map(([side, cx, cy, label]) => (
        <circle
          key={side}
          cx={cx}
          cy={cy}
          r={span * 0.013}
          tabindex={0}
          role="slider"
          aria-label={name(label)}
          aria-valuenow={Math.round((side === "right" ? x1 : side === "left" ? x0 : side === "up" ? -y0 : -y1) * 1000)}
          aria-valuetext={length(side === "right" ? x1 : side === "left" ? x0 : side === "up" ? -y0 : -y1)}
          onPointerDown={start(block.key, side)}
          onKeyDown={nudge(side)}
          onKeyUp={release}
          onBlur={release}
        />
      ))}
      {(held || block.key !== "space") && (
        <text x={x} y={y} font-size={span * LETTER}>
          {label}
        </text>
      )}
    </g>
  );
}
