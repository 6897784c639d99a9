// The first screen: whether it can be built, what stops it by cause, worst first, and what fixes each at what cost.

import type { Cause } from "../api/types";
import { Grade } from "../parts/Grade";
import { ServerText } from "../parts/ServerText";
import { quantity } from "../show/figure";
import { costOf } from "../show/cost";
import { askRemedies, atLimit, checkWhole, plan, progress, remedies, verdict } from "../state/job";
import { goTo } from "../state/selection";
import { words } from "../words";
import { showPlace, stageOf } from "./place";
import { cures } from "./Remedies";

/** Causes shown before the rest is folded away: what a screen holds with their fixes. */
const SHOWN = window.matchMedia?.("(max-width: 600px)").matches ? 1 : 3;

interface AtLine {
  atLine: (line: number) => void;
}

export function VerdictCard({ atLine }: AtLine) {
  const known = verdict.value;
  const isCurrent = known !== null && known !== "faulty" && known !== "old";
  return (
    <section id="verdict" class={`verdict-card ${known ?? ""}`} tabIndex={-1} aria-labelledby="verdict-name">
      <h2 id="verdict-name">{headline()}</h2>
      {isCurrent && <Causes atLine={atLine} />}
      {(known === "draft" || known === "old") && progress.value === null && (
        <button type="button" class="main" onClick={checkWhole}>
          {words.top.again}
        </button>
      )}
    </section>
  );
}

/** What is known of whether it can be built. */
function headline(): string {
  const { top } = words;
  switch (verdict.value) {
    case null:
      return words.wait;
    case "faulty":
      return top.faulty;
    case "old":
    case "draft":
      return progress.value === null ? top.notChecked : top.notKnown;
    case "stopped":
      return top.doNotBuild(stopping().length);
    case "at_limit":
      return top.atLimit;
    case "clear":
      return top.build;
  }
}

/** What stops the build. A draft leaves strength to the whole check, which replaces what it says of it. */
export function stopping(): Cause[] {
  const now = plan.value;
  if (!now) return [];
  const isOpen = (cause: Cause) => now.draft && stageOf(now.findings[cause.findings[0]!]!) === "quick";
  return now.causes.filter((cause) => cause.grade === "stop" && !isOpen(cause));
}

/** What stops the build, or where nothing does what is at its limit. */
function leading(): Cause[] {
  return verdict.value === "at_limit" ? atLimit() : stopping();
}

function Causes({ atLine }: AtLine) {
  const now = plan.value!;
  const causes = leading();
  const more = causes.slice(SHOWN);
  return (
    <>
      {now.draft && causes.length > 0 && <p>{words.top.soFar}</p>}
      <ol class="causes">
        {causes.slice(0, SHOWN).map((cause, index) => (
          <OneCause key={index} cause={cause} atLine={atLine} />
        ))}
      </ol>
      {more.length > 0 && (
        <details>
          <summary>{words.top.moreCauses(more.length)}</summary>
          <ol class="causes" start={SHOWN + 1}>
            {more.map((cause, index) => (
              <OneCause key={index} cause={cause} atLine={atLine} />
            ))}
          </ol>
        </details>
      )}
      <div class="row">
        <FixesWanted causes={causes} />
        <button type="button" class="plain" onClick={() => goTo("findings")}>
          {(["mend", "note"] as const).map((grade) => (
            <span key={grade}>
              <Grade grade={grade} wordless /> {words.findings.count(now.causes.filter((cause) => cause.grade === grade).length, words.grade[grade])}
            </span>
          ))}
        </button>
      </div>
    </>
  );
}

function OneCause({ cause, atLine }: { cause: Cause } & AtLine) {
  const worst = plan.value!.findings[cause.findings[0]!]!;
  const { figure, limit } = worst;
  const fix = cause.remedy?.says ?? cause.cure;
  return (
    <li>
      <p>
        <strong>{cause.about}</strong> <ServerText text={cause.says} />{" "}
        {figure && limit && (
          <span class="figure">
            {quantity(figure)}, {words.findings.limit} {quantity(limit)}
          </span>
        )}{" "}
        <button type="button" class="plain" onClick={() => showPlace(worst, atLine)} aria-label={`${words.findings.goTo}, ${cause.about}`}>
          {words.findings.goTo}
        </button>
      </p>
      {fix && (
        <p class="cure">
          <em>{words.findings.cure}</em> <ServerText text={fix} /> {cause.remedy?.adds && costOf(cause.remedy.adds)}
        </p>
      )}
    </li>
  );
}

/** Kinds of findings that a change may cure which is worked out. */
const CURABLE = ["strength.sheet_over_limit", "strength.weld_over_limit", "strength.root_opens", "strength.bulge", "strength.at_limit", "strength.add_up"];

/** Fixes of what is too weak are worked out on request: that takes as long as some checks. */
function FixesWanted({ causes }: { causes: readonly Cause[] }) {
  const now = plan.value!;
  const isWeak = causes.some((cause) => cause.remedy === null && CURABLE.includes(now.findings[cause.findings[0]!]!.kind));
  const found = remedies.value;
  if (now.draft || !isWeak) return null;
  if (found === "asking") return <p role="status">{words.hold.asking}</p>;
  if (Array.isArray(found)) return found.some(cures) ? null : <p>{words.hold.noneHolds}</p>;
  if (found === "unsupported") return null;
  return (
    <button type="button" onClick={() => void askRemedies()}>
      {words.top.workOutFixes}
    </button>
  );
}
