// The grade of a finding: a sign of its own shape with its word, so that colour alone says nothing.

import type { Grade as GradeName } from "../api/types";
import { words } from "../words";

const SIGNS: Record<GradeName, string> = {
  stop: "M6 1h8l5 5v8l-5 5H6l-5-5V6z",
  mend: "M10 1l9.500 17H.500z",
  note: "M10 1a9 9 0 100 18 9 9 0 000-18z",
};

export function Grade({ grade, wordless = false }: { grade: GradeName; wordless?: boolean }) {
  return (
    <span class={`grade ${grade}`}>
      <svg viewBox="0 0 20 20" aria-hidden="true">
        <path d={SIGNS[grade]} />
      </svg>
      {!wordless && words.grade[grade]}
    </span>
  );
}
