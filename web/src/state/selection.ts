// The selected panels and seams, by their marks. Drawings and lists highlight them together.

import { signal } from "@preact/signals";
import type { Plan } from "../api/types";

export const selection = signal<readonly string[]>([]);

export function select(...marks: string[]): void {
  selection.value = marks;
}

/** The panels and seams that a text names, by mark or by a panel's whole name. */
export function marksIn(text: string, plan: Plan): string[] {
  const marks = new Set(text.match(/\b[PS]\d+\b/g) ?? []);
  if (marks.size > 0) return [...marks];
  return plan.panels.filter((panel) => panel.name === text).map((panel) => panel.mark);
}

/** Scrolls to a stage and focuses it. */
export function goTo(id: string): void {
  const section = document.getElementById(id);
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  section?.scrollIntoView({ behavior: calm ? "instant" : "smooth", block: "start" });
  section?.focus({ preventScroll: true });
}
