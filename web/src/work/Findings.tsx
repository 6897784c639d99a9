// Every finding, worst first, each with a button that leads to its place on the page.

import type { Finding } from "../api/types";
import { FindingText } from "../parts/FindingText";
import { Stage, type StageId } from "../parts/Stage";
import { select, goTo, marksIn } from "../state/selection";
import { plan } from "../state/job";
import { keyName, words } from "../words";

export function Findings({ atLine }: { atLine: (line: number) => void }) {
  const findings = plan.value?.findings ?? [];
  return (
    <Stage id="findings">
      {!plan.value && <p role="status">{words.wait}</p>}
      {plan.value && findings.length === 0 && <p class="empty">{words.findings.none}</p>}
      <ol class="findings">
        {findings.map((finding, index) => (
          <OneFinding key={index} finding={finding} atLine={atLine} />
        ))}
      </ol>
      <Defaults />
    </Stage>
  );
}

function OneFinding({ finding, atLine }: { finding: Finding; atLine: (line: number) => void }) {
  const { grade, about, line } = finding;
  const show = () => {
    if (line !== null) return atLine(line);
    const marks = plan.value ? marksIn(about, plan.value) : [];
    if (marks.length > 0) select(...marks);
    goTo(stageOf(about, marks));
  };
  return (
    <li class={`finding ${grade}`}>
      <FindingText finding={finding} />
      <button type="button" onClick={show} aria-label={`${words.findings.goTo}: ${about}`}>
        {words.findings.goTo}
      </button>
    </li>
  );
}

/** The stage at which a finding's subject is shown. */
const PLACES: readonly [RegExp, StageId][] = [
  [/way in|space|clearance|obstacle|capacity|liquid|air space|freez/i, "space"],
  [/cut|sheet|stock|layout|kerf/i, "cut"],
  [/order of work|rod|weld|run/i, "weld"],
  [/vent|overflow|opening|hatch|drain|fill|outlet|draw|sender|baffle|divider/i, "tank"],
];

function stageOf(about: string, marks: readonly string[]): StageId {
  if (marks.length > 0) return "hold";
  return PLACES.find(([pattern]) => pattern.test(about))?.[1] ?? "hold";
}

function Defaults() {
  const taken = plan.value?.defaults ?? [];
  return (
    <details class="defaults">
      <summary>{words.findings.defaults(taken.length)}</summary>
      <dl class="settings">
        {taken.map((one) => (
          <div key={one.key}>
            <dt>
              <strong>{keyName(one.key)}</strong>: {one.value}
            </dt>
            <dd>
              {one.reason} <small>{one.source}</small>
            </dd>
          </div>
        ))}
      </dl>
    </details>
  );
}
