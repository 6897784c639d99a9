// Every finding, those of one cause together, worst first, each with a button that leads to its place on the page.

import type { Cause, Finding } from "../api/types";
import { FindingText } from "../parts/FindingText";
import { Stage } from "../parts/Stage";
import { plan } from "../state/job";
import { keyName, words } from "../words";
import { showPlace } from "./place";

interface AtLine {
  atLine: (line: number) => void;
}

export function Findings({ atLine }: AtLine) {
  const now = plan.value;
  return (
    <Stage id="findings">
      {!now && <p role="status">{words.wait}</p>}
      {now && now.findings.length === 0 && <p class="empty">{words.findings.none}</p>}
      <ol class="findings">
        {now?.causes.map((cause, index) => (
          <OneCause key={index} cause={cause} findings={now.findings} atLine={atLine} />
        ))}
      </ol>
      <Defaults />
    </Stage>
  );
}

/** The worst of a cause in full, the others behind it. */
function OneCause({ cause, findings, atLine }: { cause: Cause; findings: readonly Finding[] } & AtLine) {
  const [worst, ...others] = cause.findings.map((place) => findings[place]!);
  if (!worst) return null;
  return (
    <li class={`finding ${cause.grade}`}>
      <FindingText finding={worst} />
      <ToPlace finding={worst} atLine={atLine} />
      {others.length > 0 && (
        <details class="others">
          <summary>{words.findings.others(others.length)}</summary>
          <ol class="of-cause">
            {others.map((finding, index) => (
              <li key={index} class="other">
                <FindingText finding={finding} />
                <ToPlace finding={finding} atLine={atLine} />
              </li>
            ))}
          </ol>
        </details>
      )}
    </li>
  );
}

function ToPlace({ finding, atLine }: { finding: Finding } & AtLine) {
  return (
    <button type="button" onClick={() => showPlace(finding, atLine)} aria-label={`${words.findings.goTo}: ${finding.about}`}>
      {words.findings.goTo}
    </button>
  );
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
