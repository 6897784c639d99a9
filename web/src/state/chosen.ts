// What is pointed at: panels and seams by their marks. Drawings and lists light up together.

import { signal } from "@preact/signals";
import type { Plan } from "../api/types";

export const chosen = signal<readonly string[]>([]);

export function choose(...marks: string[]): void {
  chosen.value = marks;
}

/** The panels and seams that a text names, by mark or by a panel's whole name. */
export function named(text: string, plan: Plan): string[] {
  const marks = new Set(text.match(/\b[PS]\d+\b/g) ?? []);
  if (marks.size > 0) return [...marks];
  return plan.panels.filter((panel) => panel.name === text).map((panel) => panel.mark);
}

/** Moves the page to a stage, and the reader's place with it. */
export function goTo(id: string): void {
  const section = document.getElementById(id);
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  section?.scrollIntoView({ behavior: calm ? "instant" : "smooth", block: "start" });
  section?.focus({ preventScroll: true });
}
