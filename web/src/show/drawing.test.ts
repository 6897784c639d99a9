import { expect, test } from "vitest";
import type { Point } from "../api/types";
import { aSeam } from "../testing/samples";
import { AXES, VIEWS } from "./axes";
import { thicknessColours, utilisationColour } from "./colours";
import { ends } from "./seam";
import { facetShape, panelShape } from "./shape";

test("the three views show each pair of axes once, with height up the paper where it is seen", () => {
  const shown = VIEWS.map(({ key, across, up }) => `${key} ${AXES[across]}${AXES[up]}`);
  expect(shown).toEqual(["plan xy", "side xz", "front yz"]);
});

test("use goes from light to dark; past the limit and not known are colours of their own", () => {
  const dark = (colour: string) => colour.match(/\d+/g)!.reduce((sum, part) => sum + Number(part), 0);
  expect(dark(utilisationColour(0))).toBeGreaterThan(dark(utilisationColour(0.5)));
  expect(dark(utilisationColour(0.5))).toBeGreaterThan(dark(utilisationColour(1)));
  expect(utilisationColour(-0.2)).toBe(utilisationColour(0));
  expect(new Set([utilisationColour(1), utilisationColour(1.001), utilisationColour(null)]).size).toBe(3);
  expect(utilisationColour(1.001)).toBe(utilisationColour(5));
});

test("each thickness has a colour of its own, in order of thickness and whatever the order it came in", () => {
  const colours = thicknessColours([0.012, 0.006, 0.012, 0.008]);
  expect([...colours.keys()]).toEqual([0.006, 0.008, 0.012]);
  expect(new Set(colours.values()).size).toBe(3);
  expect(thicknessColours([0.006, 0.008, 0.012])).toEqual(colours);
});

test("a seam is drawn along the outside, inside where it has no outside, and nowhere without a line", () => {
  const inner_line_m = [[1, 1, 1], [2, 1, 1]];
  const seam = (lines: object) => aSeam("S1", [], { inner_line_m, ...lines });
  expect(ends(seam({}))).toEqual([[0, 0, 0], [0.5, 0, 0]]);
  expect(ends(seam({ outer_line_m: null }))).toEqual([[1, 1, 1], [2, 1, 1]]);
  expect(ends(seam({ outer_line_m: null, inner_line_m: null }))).toBeNull();
  expect(ends(seam({ outer_line_m: [] }))).toBeNull();
});

const CORNERS: Point[] = [[0, 0, 0], [1, 0, 0], [1, 1, 0], [0, 1, 0]];

test("a panel is drawn by its triangles and its edges", () => {
  const shape = panelShape({ mark: "P1", name: "floor", role: "outer", thickness_m: 0.008, solid: { points: CORNERS, triangles: [[0, 1, 2], [0, 2, 3]], edges: [[0, 3]] } });
  expect(shape.faces).toEqual([[[CORNERS[0], CORNERS[1], CORNERS[2]]], [[CORNERS[0], CORNERS[2], CORNERS[3]]]]);
  expect(shape.lines).toEqual([[CORNERS[0], CORNERS[3]]]);
  expect(shape.solid).toBeUndefined();
});

test("a face with a hole keeps its loops apart, each closed by a line", () => {
  const shape = facetShape("body", { points_m: CORNERS, faces: [[[0, 1, 2, 3], [1, 2, 3]]] });
  expect(shape.faces[0]).toHaveLength(2);
  expect(shape.lines).toHaveLength(7);
  expect(shape.lines).toContainEqual([CORNERS[3], CORNERS[0]]);
  expect(shape.lines).toContainEqual([CORNERS[3], CORNERS[1]]);
  expect(shape.solid).toBe(true);
});
