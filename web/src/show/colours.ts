// Colours of drawings. Each comes with a label or a pattern, never alone.

/** From light to dark with the utilisation; red above the limit. */
export function utilisationColour(use: number | null): string {
  if (use === null) return "#c9c9c4";
  if (use > 1) return "#b3261e";
  const from = [214, 224, 205];
  const to = [196, 138, 26];
  return `rgb(${from.map((value, index) => Math.round(value + (to[index]! - value) * Math.max(0, use))).join(", ")})`;
}

const THICK = ["#dfe7ea", "#9fc3d6", "#5f93b3", "#e6cf9a", "#b58f4f", "#8a8f6a"];

/** One colour per thickness, in order of thickness. */
export function thicknessColours(thicknesses: readonly number[]): Map<number, string> {
  const sorted = [...new Set(thicknesses)].sort((a, b) => a - b);
  return new Map(sorted.map((thickness, index) => [thickness, THICK[index % THICK.length]!]));
}
