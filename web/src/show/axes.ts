// The three views of the drawing: which axes point right and up.

export interface View {
  key: "plan" | "side" | "front";
  across: 0 | 1 | 2;
  up: 0 | 1 | 2;
}

export const VIEWS: readonly View[] = [
  { key: "plan", across: 0, up: 1 },
  { key: "side", across: 0, up: 2 },
  { key: "front", across: 1, up: 2 },
];

export const AXES = ["x", "y", "z"] as const;
