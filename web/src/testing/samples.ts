// The least values of the server's JSON that unit tests need.

import type { BenchStep, Build, BuildPlace, BuildRun, BuildStep, Finding, Model, Panel, Plan, Seam } from "../api/types";

/** What tests need of a value; the server sends far more. */
function least<T>(value: object): T {
  return value as T;
}

export function aPanel(mark: string, name: string): Panel {
  return least({
    mark,
    name,
    role: "outer",
    thickness_m: 0.008,
    frame: { origin_m: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
    cut: { size_m: [0.5, 0.4] },
  });
}

export function aSeam(mark: string, panels: string[], more: object = {}): Seam {
  return least({ mark, panels, joint: "corner", length_m: 0.5, inner_line_m: null, outer_line_m: [[0, 0, 0], [0.5, 0, 0]], ...more });
}

/** A load case by its name, with an id by its place in a list. */
export function aLoadCase(name: string, place: number) {
  return { id: `case ${place}`, name, panels: [], seams: [] };
}

export function aFinding(grade: Finding["grade"]): Finding {
  return least({ grade, kind: "weld.sheet_too_thin", data: null, subject: { type: "part", ids: ["weld"], marks: [] }, about: "floor", says: "It is so.", figure: null, limit: null, source: "a table", cure: "", entry: "", line: null });
}

export function aStep(id: string, more: Partial<BenchStep> = {}): BenchStep {
  return { id, title: id, work: "set", how: "plain", panels: [], seams: [], text: `Do ${id}`, settings: [], prep: [], held_by: [], corners: [], comes_off: [], wait_s: null, cautions: [], ...more };
}

export function aPlan(more: object = {}): Plan {
  return least({
    draft: false,
    etag: "v1",
    job: { units: "metric" },
    defaults: [],
    capacity: { brim_m3: 0.1, rated_m3: 0.09, usable_m3: null, compartments: [] },
    mass: { panels_kg: 10, rod_kg: 1, states: [] },
    room: [],
    fitting_room: [],
    panels: [aPanel("P1", "floor"), aPanel("P2", "rear")],
    seams: [aSeam("S1", ["P1", "P2"])],
    strength: { spans: [], assumptions: [], whole: null, sources: [] },
    cut: { sheets: 0, groups: [] },
    weld: { welds: [], rods: [], hours: [], hours_total_s: 0, waits: [], waits_total_s: 0, settings: [], steps: [], cautions: [] },
    gauge: [],
    causes: [],
    findings: [],
    ...more,
  });
}

export function aModel(more: object = {}): Model {
  return least({ etag: "v1", panels: [], cavities: [], space: null, obstacles: [], way_in: null, bulge: null, ...more });
}

export function aBuildPlace(more: Partial<BuildPlace> = {}): BuildPlace {
  return { at_m: [0, 0, 0], along_m: 0, stretch_m: 0.1, is_reached: true, is_seen: true, by_round_nozzle: false, is_end: false, in_the_way: [], ...more };
}

/** A run along x, as long as its places. */
export function aBuildRun(places: BuildPlace[]): BuildRun {
  const long = places.reduce((sum, place) => sum + place.stretch_m, 0);
  return { run: 0, seam: "S1", side: "inside", line_m: [[0, 0, 0], [long, 0, 0]], places };
}

export function aBuildStep(id: string, more: Partial<BuildStep> = {}): BuildStep {
  return { ...aStep(id), before: [], after: ["P1"], runs: [], ...more };
}

export function aBuild(steps: BuildStep[]): Build {
  const cost = { unreached_m: 0, unseen_m: 0, loose: 0, not_square: 0, against_custom: 0 };
  const panels = [["P1", "floor"], ["P2", "rear"]].map(([mark, name]) => ({ mark: mark!, name: name!, cost, text: null }));
  return { etag: "v1", by: "search", is_worse: false, panels, cost, text: "nothing", best: { panels: ["P1", "P2"], cost, text: "nothing" }, steps };
}
