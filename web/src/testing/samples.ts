// The least values of the server's JSON that unit tests need.

import type { BenchStep, Finding, LoadCase, Model, Panel, Plan, Seam } from "../api/types";

export function aPanel(mark: string, name: string): Panel {
  return {
    mark,
    name,
    role: "outer",
    thickness_m: 0.008,
    frame: { origin_m: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
    cut: { size_m: [0.5, 0.4] },
  };
}

export function aSeam(mark: string, panels: string[]): Seam {
  return { mark, panels, joint: "corner", length_m: 0.5, inner_line_m: null, outer_line_m: [[0, 0, 0], [0.5, 0, 0]] };
}

export function aLoadCase(name: string): LoadCase {
  return { name, panels: [], seams: [] };
}

export function aFinding(grade: Finding["grade"]): Finding {
  return { grade, about: "floor", says: "It is so.", figure: null, limit: null, source: "a table", cure: null, line: null };
}

export function aStep(id: string, more: Partial<BenchStep> = {}): BenchStep {
  return { id, title: id, work: "set", panels: [], seams: [], text: `Do ${id}`, settings: [], prep: [], wait_s: null, cautions: [], ...more };
}

export function aPlan(more: Partial<Plan> = {}): Plan {
  return {
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
    strength: { spans: [], assumptions: [], whole: null },
    cut: { sheets: 0, groups: [] },
    weld: { welds: [], rods: [], hours: [], hours_total_s: 0, settings: [], steps: [], cautions: [] },
    gauge: [],
    findings: [],
    ...more,
  };
}

export function aModel(more: Partial<Model> = {}): Model {
  return { etag: "v1", panels: [], cavities: [], space: null, obstacles: [], way_in: null, bulge: null, ...more };
}
