// A hash of the work of each step: a tick counts only for the work that it was made for.

import type { BenchStep, Panel, Plan, Point } from "../api/types";

/** A hundredth of a millimetre: pieces that differ by less are the same. */
const SAME_M = 1e-5;

/** By the id of the step. The same in all units and languages, so that all devices agree. */
export function contents(steps: readonly BenchStep[], plan: Plan): Record<string, string> {
  return Object.fromEntries(steps.map((step) => [step.id, hash(content(step, plan))]));
}

function content(step: BenchStep, plan: Plan): string {
  return JSON.stringify(
    [
      step.work,
      step.how,
      step.prep.map(({ id }) => id),
      step.wait_s,
      // What the settings are looked up by.
      step.settings.length > 0 && [plan.job.stock.material, plan.job.shop.process, plan.job.shop.nozzle],
      step.work === "test strip" ? [...new Set(plan.panels.map(({ thickness_m }) => thickness_m))] : pieces(step, plan),
    ],
    (_, value: unknown) => (typeof value === "number" ? Math.round(value / SAME_M) : value),
  );
}

/** Its panels and those that its seams join; its seams and those that its panels will get. */
function pieces(step: BenchStep, plan: Plan): unknown {
  const isWhole = step.panels.length + step.seams.length === 0;
  const seams = plan.seams.filter((seam) => isWhole || step.seams.includes(seam.mark) || seam.panels.some((panel) => step.panels.includes(panel)));
  const marks = new Set(seams.map(({ mark }) => mark));
  const joined = new Set(seams.filter(({ mark }) => step.seams.includes(mark)).flatMap((seam) => seam.panels));
  const panels = plan.panels.filter(({ mark }) => isWhole || step.panels.includes(mark) || joined.has(mark));
  const first = plan.panels[0]?.frame.origin_m ?? [0, 0, 0];
  return [
    panels.map((panel) => placed(panel, first)),
    seams.map(({ mark, panels, joint, length_m }) => [mark, panels, joint, length_m]),
    plan.weld.welds.filter(({ seam }) => marks.has(seam)).map(({ seam, side, kind, runs, rod_length_m }) => [seam, side, kind, runs, rod_length_m]),
  ];
}

/** The panel, placed from the first one: where the tank stands in its space does not concern the bench. */
function placed(panel: Panel, first: Point): Panel {
  const [x, y, z] = panel.frame.origin_m;
  return { ...panel, frame: { ...panel.frame, origin_m: [x - first[0], y - first[1], z - first[2]] } };
}

/** FNV-1a: over plain http the browser offers no digest of its own. */
function hash(text: string): string {
  let sum = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) sum = Math.imul(sum ^ text.charCodeAt(at), 0x01000193);
  return (sum >>> 0).toString(16).padStart(8, "0");
}
