// The columns of each list in the job: the keys of an entry, as in the job file.

import type { Column } from "../parts/Rows";
import { plan, written } from "../state/job";
import { system } from "../state/units";
import { words } from "../words";

const form = words.form;
const name: Column = { key: "name", label: form.name, kind: "name" };

/** An obstacle is a box between two corners, or an outline extruded along an axis. */
export function obstacle(path: string): readonly Column[] {
  return written(`${path}.outline`) === undefined ? BLOCK : PRISM;
}

const PRISM: readonly Column[] = [
  name,
  { key: "along", label: form.along },
  { key: "from", label: form.from, kind: "length", si: "reach_m[1]" },
  { key: "to", label: form.to, kind: "length", si: "reach_m[2]" },
];

const BLOCK: readonly Column[] = [
  name,
  ...(["x", "y", "z"] as const).map(
    (axis, index): Column => ({ key: `from[${index + 1}]`, label: `${form.from} ${axis}`, kind: "length", si: `box_m[1][${index + 1}]` }),
  ),
  ...(["x", "y", "z"] as const).map(
    (axis, index): Column => ({ key: `to[${index + 1}]`, label: `${form.to} ${axis}`, kind: "length", si: `box_m[2][${index + 1}]` }),
  ),
];

export const SHEET: readonly Column[] = [
  { key: "size[1]", label: form.sheetLong, kind: "length", si: "size_m[1]" },
  { key: "size[2]", label: form.sheetWide, kind: "length", si: "size_m[2]" },
  { key: "thickness", label: form.thickness, kind: "thickness", si: "thickness_m" },
  { key: "count", label: form.count, kind: "count", hint: form.countHint },
  { key: "price", label: form.price, kind: "number" },
];

export const ROD: readonly Column[] = [
  { key: "diameter", label: form.diameter, kind: "length", si: "diameter_m" },
  { key: "coil", label: form.coil, kind: "mass", si: "coil_kg" },
  { key: "material", label: form.rodMaterial },
];

export const INNER: readonly Column[] = [
  name,
  { key: "kind", label: form.kind },
  { key: "across", label: form.across, hint: form.acrossHint },
  { key: "at", label: form.innerAt, kind: "length", si: "at_m", hint: form.innerAtHint },
  { key: "thickness", label: form.thickness, kind: "thickness", si: "thickness_m" },
  { key: "air_gap", label: form.airGap, kind: "length", si: "air_gap_m" },
  { key: "drain_gap", label: form.drainGap, kind: "length", si: "drain_gap_m" },
];

/** How many heights the form offers; more can be typed in the text. */
const HEIGHTS = 6;

export const RIB: readonly Column[] = [
  name,
  { key: "depth", label: form.ribDepth, kind: "length", si: "depth_m" },
  { key: "thickness", label: form.thickness, kind: "thickness", si: "thickness_m" },
  ...Array.from(
    { length: HEIGHTS },
    (_, index): Column => ({ key: `heights[${index + 1}]`, label: `${form.ribHeight} ${index + 1}`, kind: "length", si: `heights_m[${index + 1}]` }),
  ),
];

/** A room is named by two panels that bound it, of those that can. */
function between(): readonly Column[] {
  const panels = plan.value?.panels.filter((panel) => BOUNDS.has(panel.role)).map((panel) => panel.name);
  return [
    { key: "between[1]", label: form.between, hint: form.betweenHint, choices: panels },
    { key: "between[2]", label: form.andBetween, choices: panels },
  ];
}

const BOUNDS = new Set(["floor", "lid", "wall", "divider"]);

export function dryRoom(): readonly Column[] {
  return between();
}

export function compartment(): readonly Column[] {
  return [
    name,
    ...between(),
    { key: "kind", label: form.liquid },
    { key: "density", label: form.density },
    { key: "medium_factor", label: form.mediumFactor, kind: "number" },
    { key: "wanted", label: form.wanted, hint: form.wantedHint[system.value] },
  ];
}

/** The panels of the plan are offered by name. */
export function opening(): readonly Column[] {
  const panels = plan.value?.panels.map((panel) => panel.name);
  return [
    name,
    { key: "service", label: form.service },
    { key: "panel", label: form.panel, choices: panels },
    { key: "at[1]", label: `${form.openingAt}: ${form.right}`, kind: "length", si: "at_m[1]" },
    { key: "at[2]", label: form.up, kind: "length", si: "at_m[2]" },
    { key: "diameter", label: form.diameter, kind: "length", si: "diameter_m" },
    { key: "flange", label: form.flange, kind: "length", si: "flange_m" },
    { key: "stands_out", label: form.standsOut, kind: "length", si: "stands_out_m" },
    { key: "cover", label: form.cover, kind: "thickness", si: "cover_m", hint: form.coverHint },
    { key: "weighs", label: form.weighs, kind: "mass", si: "weighs_kg" },
    { key: "goes_on", label: form.goesOn },
    { key: "faces", label: form.faces },
  ];
}
