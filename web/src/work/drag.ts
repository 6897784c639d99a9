// Drag handles: the blocks that can be dragged in a view, the places where they snap, and the edit that a
// drop makes. Sizes are written in the job's default unit, rounded to its step.

import { computed } from "@preact/signals";
import type { Edit, Model, Point, Written } from "../api/types";
import { VIEWS, type View } from "../show/axes";
import { answer, model, written } from "../state/job";
import { words } from "../words";

/** A box of the job: two corners in the axes of the space, and the edits that move them. */
export interface Block {
  key: string;
  name: string;
  low: Point;
  high: Point;
  /** Its low corner cannot be moved. */
  fixed: boolean;
  /** It is flat, and can be dragged in this view only. */
  only?: View["key"];
  edits: (low: Point, high: Point) => Edit[];
}

const METRES: Record<string, number> = { mm: 0.001, cm: 0.01, m: 1, in: 0.0254, ft: 0.3048 };
/** Steps per unit when drawing: 1 mm, 1/8 in and so on. */
const STEPS: Record<string, number> = { mm: 1, cm: 10, m: 1000, in: 8, ft: 96 };
/** A dragged edge snaps to sizes this many steps apart. */
const COARSE: Record<string, number> = { mm: 5, cm: 5, m: 5, in: 2, ft: 4 };

function unit(): string {
  const lengths = written("job.lengths");
  return typeof lengths === "string" && lengths in METRES ? lengths : "mm";
}

/** The smallest move, in metres. */
export function step(): number {
  return METRES[unit()]! / STEPS[unit()]!;
}

/** Where `value` snaps to: a near edge of another block, or a round size. */
export function snapped(value: number, near: readonly number[], reach: number): number {
  const best = near.reduce((a, b) => (Math.abs(b - value) < Math.abs(a - value) ? b : a), Number.POSITIVE_INFINITY);
  if (Math.abs(best - value) <= reach) return best;
  const coarse = step() * COARSE[unit()]!;
  return Math.round(value / coarse) * coarse;
}

/** A drawn length as it is written: a bare number where the job has a default unit. */
export function drawn(metres: number): Written {
  const value = Math.round(metres / step()) / STEPS[unit()]!;
  return written("job.lengths") === undefined ? `${value} ${unit()}` : value;
}

interface Box {
  box_m: [Point, Point] | null;
  name: string;
}

interface OpeningSizes {
  width_m: number;
  height_m: number;
  side: string | null;
  at_m: [number, number] | null;
}

/** Every box of the job: the space, the tank, obstacles, and the access opening. */
export const blocksOfJob = computed(() => blocks(answer.value?.job ?? null, model.value?.way_in ?? null));

function blocks(job: Record<string, unknown> | null, opening: Model["way_in"]): Block[] {
  if (!job) return [];
  const names = words.space;
  const found: Block[] = [];
  const space = job.space as { shape: { box_m: Point | null } | null; obstacles: Box[]; way_in: OpeningSizes | null } | null;
  const body = job.body as { shape: { box_m: Point | null } | null; at_m: Point } | null;
  if (space?.shape?.box_m) {
    found.push({
      key: "space",
      name: names.room,
      low: [0, 0, 0],
      high: space.shape.box_m,
      fixed: true,
      edits: (_, high) => changed("space.box", space.shape!.box_m!, high),
    });
  }
  space?.obstacles.forEach(({ name, box_m }, index) => {
    if (!box_m) return;
    const path = `space.obstacle[${index + 1}]`;
    found.push({
      key: path,
      name,
      low: box_m[0],
      high: box_m[1],
      fixed: false,
      edits: (low, high) => [...changed(`${path}.from`, box_m[0], low), ...changed(`${path}.to`, box_m[1], high)],
    });
  });
  if (opening && space?.way_in?.side === opening.side) found.push(wayIn(space.way_in, opening, names.wayIn));
  if (body?.shape?.box_m && written("body.box") !== undefined) {
    const { at_m: corner } = body;
    const size = body.shape.box_m;
    found.push({
      key: "body",
      name: names.body,
      low: corner,
      high: sum(corner, size),
      fixed: !space,
      edits: (low, high) => [...changed("body.at", corner, low), ...changed("body.box", size, difference(high, low))],
    });
  }
  return found;
}

/** The view that is parallel to each side of the space. */
const SEEN_IN: Record<string, View["key"]> = { front: "front", rear: "front", left: "side", right: "side", above: "plan", below: "plan" };

function wayIn(opening: OpeningSizes, { side, outline_m: [corner] }: NonNullable<Model["way_in"]>, name: string): Block {
  const only = SEEN_IN[side]!;
  const { across, up } = VIEWS.find((view) => view.key === only)!;
  // Sizes and position come from the job, which is newer than the model during a drag.
  const low: Point = [...corner];
  if (opening.at_m) [low[across], low[up]] = opening.at_m;
  const high: Point = [...low];
  high[across] += opening.width_m;
  high[up] += opening.height_m;
  const path = "space.way_in";
  const size = (from: Point, to: Point, axis: 0 | 1 | 2) => to[axis] - from[axis];
  const isMoved = (to: Point) => [across, up].some((axis) => Math.abs(to[axis] - low[axis]) > step() / 2);
  return {
    key: path,
    name,
    low,
    high,
    fixed: false,
    only,
    edits: (to, top) => {
      const sizes = ([["width", across], ["height", up]] as const).filter(([, axis]) => Math.abs(size(to, top, axis) - size(low, high, axis)) > step() / 2);
      // The position is written too: a default position would move with a new size.
      const at = isMoved(to) || sizes.length > 0 ? [{ path: `${path}.at`, set: [drawn(to[across]), drawn(to[up])] }] : [];
      return [...sizes.map(([key, axis]) => ({ path: `${path}.${key}`, set: drawn(size(to, top, axis)) })), ...at];
    },
  };
}

/** The edits for the sides that moved; the others stay as they were typed. */
function changed(path: string, before: Point, after: Point): Edit[] {
  return after.flatMap((value, axis) =>
    Math.abs(value - before[axis]!) > step() / 2 ? [{ path: `${path}[${axis + 1}]`, set: drawn(value) }] : [],
  );
}

/** All positions along an axis that an edge may snap to. */
export function edgesAlong(axis: 0 | 1 | 2, all: readonly Block[], except: string, clearance: number): number[] {
  return all
    .filter((block) => block.key !== except)
    .flatMap(({ low, high }) => [low[axis], high[axis], low[axis] - clearance, low[axis] + clearance, high[axis] - clearance, high[axis] + clearance]);
}

/** The block with one side, or the whole of it, moved by `by` along the axes of a view. */
export function moved(block: Block, view: View, side: Side, by: readonly [number, number]): { low: Point; high: Point } {
  const low: Point = [...block.low];
  const high: Point = [...block.high];
  const { across, up } = view;
  const least = step();
  if (side === "all") {
    for (const [axis, way] of [[across, by[0]], [up, by[1]]] as const) {
      low[axis] += way;
      high[axis] += way;
    }
  }
  if (side === "left") low[across] = Math.min(low[across] + by[0], high[across] - least);
  if (side === "right") high[across] = Math.max(high[across] + by[0], low[across] + least);
  if (side === "down") low[up] = Math.min(low[up] + by[1], high[up] - least);
  if (side === "up") high[up] = Math.max(high[up] + by[1], low[up] + least);
  return { low, high };
}

export type Side = "all" | "left" | "right" | "up" | "down";

function sum(a: Point, b: Point): Point {
  return [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
}

function difference(a: Point, b: Point): Point {
  return [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
}
