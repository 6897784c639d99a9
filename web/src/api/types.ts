// Shapes of the server's JSON, as far as the page draws them: SI, the unit at the end of each name.

export type Point = [number, number, number];
export type Spot = [number, number];
/** A value as a person typed it in the job file. */
export type Written = string | number | boolean | null | Written[] | { [key: string]: Written };

export interface Fault {
  line: number | null;
  column: number | null;
  key: string | null;
  says: string;
  allowed: string[];
  nearest: string | null;
  remedy: string;
}

export interface JobAnswer {
  name: string;
  title: string;
  etag: string;
  text: string;
  written: { [key: string]: Written } | null;
  job: { [key: string]: unknown } | null;
  faults: Fault[];
  can_undo: boolean;
  can_redo: boolean;
}

export interface JobLine {
  name: string;
  title: string | null;
  changed_s: number;
  fault: boolean;
}

export interface About {
  version: string;
  share: boolean;
  /** The code for the next device; only the server's own machine gets it. */
  code: string | null;
  /** Whether this device has entered a valid code. */
  inside: boolean;
  choices: { [key: string]: string[] };
}

export type Edit =
  | { path: string; set: Written }
  | { path: string; remove: true }
  | { path: string; append: { [key: string]: Written } }
  | { path: string; insert: Written };

export interface Quantity {
  value: number;
  unit: string;
}

export type Grade = "stop" | "mend" | "note";

export interface Finding {
  grade: Grade;
  about: string;
  says: string;
  figure: Quantity | null;
  limit: Quantity | null;
  source: string;
  cure: string | null;
  line: number | null;
}

export interface Frame {
  origin_m: Point;
  x: Point;
  y: Point;
  z: Point;
}

export interface Panel {
  mark: string;
  name: string;
  role: string;
  thickness_m: number;
  frame: Frame;
  cut: { size_m: Spot };
}

export interface Seam {
  mark: string;
  panels: string[];
  joint: string;
  length_m: number;
  inner_line_m: Point[] | null;
  outer_line_m: Point[] | null;
}

export interface LoadCase {
  name: string;
  panels: {
    panel: string;
    outward_m: number;
    inward_m: number;
    bulge_at_m: Point;
    utilisation: number;
  }[];
  seams: { seam: string; at_m: Point; utilisation: number | null }[];
}

export interface Span {
  panel: string;
  load_case: string;
  deflection_m: number;
  utilisation: number | null;
  covered: boolean;
}

export interface Cut {
  number: number;
  piece: Place;
  runs: "along length" | "along width";
  against: "near" | "far";
  fence_m: number;
}

export interface Place {
  at_m: Spot;
  size_m: Spot;
}

export interface Layout {
  length_m: number;
  width_m: number;
  parts: { panel: string; place: Place; turned: boolean }[];
  cuts: Cut[];
  offcuts: Place[];
}

export interface CutGroup {
  thickness_m: number;
  layouts: Layout[];
  left_out: { panel: string; why: string }[];
  least_sheets: number;
  verdict: string;
}

export interface Step {
  work: string;
  panels: string[];
  seams: string[];
  text: string;
}

export interface Setting {
  quantity: string;
  low: number;
  high: number;
  unit: string;
  source: string;
}

export interface Caution {
  about: string;
  text: string;
}

export interface PanelRoom {
  panel: string;
  gap_m: number | null;
  carries: boolean;
  growth_m: [number, number] | null;
  bulge_m: number | null;
  left_m: number | null;
}

export interface FittingRoom {
  fitting: string;
  panel: string;
  gap_m: number | null;
  stands_out_m: number | null;
  goes_through: boolean;
  left_m: number | null;
}

export interface Plan {
  draft: boolean;
  etag: string;
  job: { [key: string]: unknown };
  defaults: { key: string; value: string; reason: string; source: string }[];
  capacity: {
    brim_m3: number;
    rated_m3: number;
    usable_m3: number | null;
    compartments: { name: string; brim_m3: number }[];
  };
  mass: {
    panels_kg: number;
    rod_kg: number;
    states: { name: string; mass_kg: number; centre_m: Point }[];
  };
  /** Empty where the job has no space. */
  room: PanelRoom[];
  fitting_room: FittingRoom[];
  panels: Panel[];
  seams: Seam[];
  strength: { spans: Span[]; assumptions: string[]; whole: { load_cases: LoadCase[] } | null };
  cut: { sheets: number; groups: CutGroup[] };
  weld: {
    welds: { seam: string; side: string; kind: string; preparation: string; runs: number; length_m: number; rod_length_m: number }[];
    rods: { diameter_m: number; length_m: number; mass_kg: number }[];
    hours: { what: string; quantity: number; quantity_unit: string; rate: string; time_s: number }[];
    hours_total_s: number;
    settings: Setting[];
    steps: Step[];
    cautions: Caution[];
  };
  gauge: { compartment: string; under: string; rows: { dip_m: number; volume_m3: number }[] }[];
  findings: Finding[];
}

/** A solid as points, triangles for its faces and the edges that are drawn as lines. */
export interface Solid {
  points: Point[];
  triangles: [number, number, number][];
  edges: [number, number][];
}

/** A closed solid of flat faces; each face is its outline, then its holes, as indices of points. */
export interface Facets {
  points_m: Point[];
  faces: number[][][];
}

/** A body that fits the space. */
export interface Offer {
  name: string;
  because: string;
  brim_m3: number;
  rated_m3: number;
  usable_m3: number | null;
  panels: number;
  seams_m: number;
  sheets: number;
  /** Panels for which the stock has no sheet. */
  panels_left_out: number;
  work_s: number;
  empty_kg: number;
  full_kg: number;
  gives_up: string;
  next_gains: string;
  way_in: { says: string; pieces: { says: string }[] };
  /** How much room it needs when full and warm; null where that is not known. */
  full_size: { says: string } | null;
  body: Facets;
}

/** The bodies that fit; left out are those that another body beats in everything, and those that cannot be built. */
export interface Fit {
  offers: Offer[];
  left_out: { name: string; reason: string }[];
  gains: { change: string; gain_m3: number }[];
}

export interface Model {
  etag: string;
  panels: { mark: string; name: string; role: string; thickness_m: number; solid: Solid }[];
  cavities: { name: string; solid: Solid }[];
  space: Solid | null;
  obstacles: { name: string; solid: Solid }[];
  /** The opening through which the tank goes in; null where the job does not say on which side it is. */
  way_in: { side: string; outline_m: [Point, Point, Point, Point] } | null;
  bulge: {
    load_case: string;
    load_cases: string[];
    panels: {
      mark: string;
      points: Point[];
      triangles: [number, number, number][];
      displacement_m: Point[];
      utilisation: (number | null)[];
    }[];
  } | null;
}

export interface Liquid {
  volume_m3: number;
  dip_m: number;
  highest_dip_m: number;
  plane: { normal: Point; offset_m: number };
  surfaces: Point[][];
}

export interface Papers {
  etag: string | null;
  files: { name: string; bytes: number; what: string }[];
}

export interface RemedyFigures {
  utilisation: number | null;
  bulge_m: number | null;
}

export interface Remedy {
  says: string;
  holds: boolean;
  /** Why it could not be computed; null where it was. */
  why: string | null;
  /** The edits that apply it to the job. */
  edits: Edit[];
  /** Fittings that were ignored; the job keeps them. */
  without: string[];
  before: RemedyFigures | null;
  after: RemedyFigures | null;
  adds: { sheet_kg: number; rod_m: number; hours_s: number; rated_m3: number } | null;
}

export interface BenchStep extends Step {
  id: string;
  title: string;
  settings: Setting[];
  prep: string[];
  wait_s: number | null;
  cautions: string[];
}

export interface Bench {
  name: string;
  title: string;
  etag: string;
  /** A finding stops the build. */
  stopped: boolean;
  steps: BenchStep[];
}

export interface Entry {
  client_id: string;
  step: string;
  kind: "tick" | "untick" | "note" | "measured" | "coupon" | "reading";
  value: string;
  made_s: number;
}
