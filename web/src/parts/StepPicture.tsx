// A step of the order of work: panels set so far, those of this step highlighted, its seams drawn thick.

import type { BenchStep, Model, Seam } from "../api/types";
import { panelShape } from "../show/shape";
import { words } from "../words";
import { Sketch } from "./Sketch";

interface StepPictureProps {
  steps: readonly { work: BenchStep["work"]; panels: string[]; seams: string[] }[];
  at: number;
  panels: Model["panels"];
  seams: readonly Seam[];
}

export function StepPicture({ steps, at, panels, seams }: StepPictureProps) {
  const step = steps[at];
  const done = steps.slice(0, at + 1);
  const set = new Set(done.flatMap((one) => one.panels));
  if (set.size === 0) return null;
  const over = done.filter((one) => one.work === "turn").length % 2 === 1;
  return (
    <Sketch
      shapes={panels.filter((panel) => set.has(panel.mark)).map(panelShape)}
      lit={step?.panels}
      seams={seams.filter((seam) => step?.seams.includes(seam.mark))}
      over={over}
      label={words.weld.picture}
    />
  );
}
