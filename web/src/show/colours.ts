// Colours of drawings. Each comes with a label or a pattern, never alone.

/** From light to dark with the utilisation; red above the limit. */
export function utilisationColour(use: number | null): string {
  if (use === null) return "#c9c9c4";
  if (use > 1) return "#b3261e";
  const from = [214, 224, 205];
  const to = [196, 138, 26];
  return `rgb(${from.map((value, index) => Math.round(value + (to[index]! - value) * Math.max(0, use))).join(", ")})`;
}

/** How a place of a run is laid. */
export const REACH_COLOURS = { reached: "#1f8a4c", by_round_nozzle: "#2f6fb0", unseen: "#d08a00", unreached: "#d0271d" } as const;

/** Gun, hand and arm. */
export const POSE_COLOURS = { gun: "#68737b", hand: "#d79a6b", rod: "#8a6fb0", forearm: "#4f7fa3", upper_arm: "#3f6a8c", body: "#6d7f8a", sight: "#c9b037" } as const;

const THICK = ["#dfe7ea", "#9fc3d6", "#5f93b3", "#e6cf9a", "#b58f4f", "#8a8f6a"];

/** One colour per thickness, in order of thickness. */
export function thicknessColours(thicknesses: readonly number[]): Map<number, string> {
  const sorted = [...new Set(thicknesses)].sort((a, b) => a - b);
  return new Map(sorted.map((thickness, index) => [thickness, THICK[index % THICK.length]!]));
}
