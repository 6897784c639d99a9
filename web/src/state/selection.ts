// The selected panels and seams, by their marks. Drawings and lists highlight them together.

import { signal } from "@preact/signals";

export const selection = signal<readonly string[]>([]);

export function select(...marks: string[]): void {
  selection.value = marks;
}

/** Scrolls to a stage and focuses it. */
export function goTo(id: string): void {
  const section = document.getElementById(id);
  const calm = matchMedia("(prefers-reduced-motion: reduce)").matches;
  section?.scrollIntoView({ behavior: calm ? "instant" : "smooth", block: "start" });
  section?.focus({ preventScroll: true });
}
