// The welds that a step lays: length, runs, speed and how the edges are prepared.

import type { BenchStep, Plan } from "../api/types";
import { length, speed } from "../show/figure";
import { select } from "../state/selection";
import { words } from "../words";

/** From which side a step lays its welds. */
export const SIDES: Partial<Record<BenchStep["work"], "inside" | "outside">> = { "weld inside": "inside", "weld outside": "outside" };

export function Welds({ plan, seams, work }: { plan: Plan; seams: readonly string[]; work: BenchStep["work"] }) {
  const lines = plan.weld.welds.filter((weld) => seams.includes(weld.seam) && weld.side === SIDES[work]);
  if (lines.length === 0) return null;
  return (
    <div class="table-wrap" tabIndex={0} role="region" aria-label={words.weld.seams}>
      <table>
        <caption>{words.weld.seams}</caption>
        <thead>
          <tr>
            <th scope="col">{words.weld.seam}</th>
            <th scope="col">{words.weld.length}</th>
            <th scope="col">{words.weld.runs}</th>
            <th scope="col">{words.weld.speed}</th>
            <th scope="col">{words.weld.prep}</th>
          </tr>
        </thead>
        <tbody>
          {lines.map((weld) => (
            <tr key={weld.seam}>
              <th scope="row">
                <button type="button" class="plain" onClick={() => select(weld.seam)}>
                  {weld.seam}
                </button>
              </th>
              <td>{length(weld.length_m)}</td>
              <td>{weld.runs}</td>
              <td title={words.weld.boundBy[weld.speed_bound]}>{speed(weld.speed_m_s)}</td>
              <td>{weld.preparation}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
