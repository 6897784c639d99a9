// The header that stays in sight: figures and verdict, undo, units, other views.

import { useEffect, useRef } from "preact/hooks";
import { Choice } from "../parts/Choice";
import { Grade } from "../parts/Grade";
import { Pairs } from "../parts/Pairs";
import { mass, volume } from "../show/figure";
import { goTo } from "../state/selection";
import { answer, cancel, checkWhole, plan, progress, redo, stale, undo, verdict } from "../state/job";
import { showIn, system } from "../state/units";
import { withLanguage, words } from "../words";
import { stopping } from "./VerdictCard";

const { top } = words;

export function Top({ asText, setAsText }: { asText: boolean; setAsText: (as: boolean) => void }) {
  const { title, name, can_undo, can_redo } = answer.value!;
  const self = useRef<HTMLElement>(null);
  useEffect(() => {
    const root = document.documentElement.style;
    const seen = new ResizeObserver(() => root.setProperty("--top-height", `${self.current!.offsetHeight}px`));
    seen.observe(self.current!);
    return () => seen.disconnect();
  }, []);
  return (
    <header class="top" ref={self}>
      <div class="row">
        <a href={withLanguage("/")} class="back">
          {top.back}
        </a>
        <h1 title={title}>{title}</h1>
        <State />
        <button type="button" aria-disabled={!can_undo} onClick={() => can_undo && void undo()}>
          {top.undo}
        </button>
        <button type="button" aria-disabled={!can_redo} onClick={() => can_redo && void redo()}>
          {top.redo}
        </button>
        <Choice label={top.units} value={system.value} options={[["metric", top.metric], ["inch", top.inch]]} choose={showIn} />
        <button type="button" aria-pressed={asText} onClick={() => setAsText(!asText)}>
          {asText ? top.picture : top.text}
        </button>
        <a class="button" href={withLanguage(`/bench/${encodeURIComponent(name)}`)}>
          {top.bench}
        </a>
      </div>
      <Figures />
    </header>
  );
}

function Figures() {
  const now = plan.value;
  if (!now) return null;
  const { capacity, mass: weights } = now;
  const weight = (state: string) => weights.states.find((one) => one.name === state)?.mass_kg;
  const pairs: [string, string][] = [
    [top.brim, volume(capacity.brim_m3)],
    [top.rated, volume(capacity.rated_m3)],
    [top.usable, capacity.usable_m3 === null ? "–" : volume(capacity.usable_m3)],
    [top.dry, mass(weight("empty") ?? weights.panels_kg + weights.rod_kg)],
    [top.full, weight("rated") === undefined ? "–" : mass(weight("rated")!)],
  ];
  return (
    <div class={stale.value ? "figures stale" : "figures"}>
      <Pairs list={pairs} />
      <p class="verdict">
        <button type="button" class="plain" onClick={() => goTo("verdict")}>
          {verdict.value === "stopped" && (
            <>
              <Grade grade="stop" wordless /> {top.doNotBuild(stopping().length)}
            </>
          )}
          {verdict.value === "draft" && (
            <>
              <Grade grade="note" wordless /> {top.draft}
            </>
          )}
          {verdict.value === "clear" && <>✓ {top.build}</>}
        </button>
      </p>
    </div>
  );
}

/** Whether the whole check is done, running or missing. */
function State() {
  const now = progress.value;
  if (!plan.value) return null;
  if (verdict.value === "faulty") {
    return (
      <p class="state warn" role="status">
        {top.stale}
      </p>
    );
  }
  if (now) {
    return (
      <p class="state" role="status">
        <progress max={now.total || undefined} value={now.total ? now.done : undefined} aria-label={top.working} />
        {top.working}
        <button type="button" class="quiet" onClick={cancel}>
          {top.cancel}
        </button>
      </p>
    );
  }
  if (verdict.value === "draft" || verdict.value === "old") {
    return (
      <p class="state" role="status">
        {top.stopped}
        <button type="button" class="quiet" onClick={checkWhole}>
          {top.again}
        </button>
      </p>
    );
  }
  return (
    <p class="state" role="status">
      {top.whole}
    </p>
  );
}
