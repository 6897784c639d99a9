// Changes that would fix the findings: each checked by the server, before and after side by side.

import type { Remedy, RemedyFigures } from "../api/types";
import { ServerText } from "../parts/ServerText";
import { costOf } from "../show/cost";
import { movement, percent } from "../show/figure";
import { answer, askRemedies, changeFrom, plan, remedies } from "../state/job";
import { words } from "../words";

const { hold } = words;

export function Remedies() {
  const found = remedies.value;
  const stops = plan.value?.findings.some((finding) => finding.grade !== "note") ?? false;
  return (
    <section class="remedies" aria-label={hold.remedies}>
      <h3>{hold.remedies}</h3>
      {plan.value && found === null && !stops && <p>{hold.nothing}</p>}
      {found === null && stops && (
        <button type="button" onClick={() => void askRemedies()}>
          {hold.askRemedies}
        </button>
      )}
      {found === "asking" && <p role="status">{hold.asking}</p>}
      {found === "unsupported" && <p>{hold.unsupported}</p>}
      {Array.isArray(found) && !found.some(cures) && <p>{hold.noneHolds}</p>}
      {Array.isArray(found) && found.map((remedy) => <OneRemedy key={remedy.says} remedy={remedy} />)}
    </section>
  );
}

function OneRemedy({ remedy }: { remedy: Remedy }) {
  const rows: [string, (figures: RemedyFigures) => string][] = [
    [hold.utilisation, (figures) => shown(figures.utilisation, percent)],
    [hold.bulges, (figures) => shown(figures.bulge_m, movement)],
  ];
  return (
    <details class="remedy">
      <summary>
        <ServerText text={remedy.says} /> <Outcome remedy={remedy} />
      </summary>
      {remedy.after && <table>
        <thead>
          <tr>
            <td />
            <th scope="col">{hold.before}</th>
            <th scope="col">{hold.after}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(([label, of]) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td>{remedy.before && of(remedy.before)}</td>
              <td>{remedy.after && of(remedy.after)}</td>
            </tr>
          ))}
        </tbody>
      </table>}
      {remedy.adds && <p>{costOf(remedy.adds)}</p>}
      {remedy.breaks.map((says) => (
        <p key={says}>
          {hold.breaks}: <ServerText text={says} />
        </p>
      ))}
      {remedy.why && <p><ServerText text={remedy.why} /></p>}
      {remedy.without.length > 0 && <p class="hint">{hold.without(remedy.without.join(", "))}</p>}
      {remedy.after && (
        <button type="button" class="main" onClick={() => apply(remedy)}>
          {hold.use1}
        </button>
      )}
    </details>
  );
}

/** Whether it is shown to make the tank hold, and breaks nothing else. */
export const cures = (remedy: Remedy) => remedy.checked && remedy.holds && remedy.breaks.length === 0;

function Outcome({ remedy }: { remedy: Remedy }) {
  if (!remedy.holds) return <small class="no">✕ {hold.notEnough}</small>;
  if (!remedy.checked) return <small class="hint">{hold.notChecked}</small>;
  if (remedy.breaks.length > 0) return <small class="no">✕ {hold.breaks}</small>;
  return <small class="yes">✓ {hold.holds}</small>;
}

/** Only to the version of the job that it was computed for. */
function apply(remedy: Remedy): void {
  const etag = answer.value?.etag;
  void changeFrom(() => (answer.value?.etag === etag ? remedy.edits : []));
}

function shown(figure: number | null, as: (figure: number) => string): string {
  return figure === null ? "–" : as(figure);
}
