// Where a finding is shown: its line of the job file, or its parts in a stage of the page.

import type { Finding } from "../api/types";
import type { StageId } from "../parts/Stage";
import { goTo, select } from "../state/selection";

type CheckedStage = Finding["kind"] extends `${infer Stage}.${string}` ? Stage : never;

/** The stage of the page that shows what a stage of the check is about. */
const SHOWN_IN: Record<CheckedStage, StageId> = {
  space: "space",
  body: "space",
  room: "hold",
  way_in: "space",
  fit: "fits",
  panels: "tank",
  capacity: "tank",
  practice: "tank",
  quick: "hold",
  strength: "hold",
  remedy: "hold",
  plan: "hold",
  cut: "cut",
  weld: "weld",
  slosh: "tank",
};

export function stageOf({ kind }: Finding): CheckedStage {
  return kind.slice(0, kind.indexOf(".")) as CheckedStage;
}

/** Selects the parts of a finding and goes to where they are shown; to its line where it comes from one. */
export function showPlace(finding: Finding, atLine: (line: number) => void): void {
  if (finding.line !== null) return atLine(finding.line);
  const { marks } = finding.subject;
  if (marks.length > 0) select(...marks);
  goTo(SHOWN_IN[stageOf(finding)]);
}
