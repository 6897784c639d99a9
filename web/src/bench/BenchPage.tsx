// The bench view: one step a screen, for gloved hands.

import { useEffect, useState } from "preact/hooks";
import type { BenchStep } from "../api/types";
import { Grade } from "../parts/Grade";
import { StepPicture } from "../parts/StepPicture";
import { range } from "../show/figure";
import { light, setLight } from "../state/light";
import { words } from "../words/en";
import { keepPage } from "./keepPage";
import { Notes } from "./Notes";
import { add, kept, online, openOutbox, ticked } from "./outbox";
import { awake, keepAwake } from "./screen";
import { benchJob, type BenchJob } from "./steps";
import { Timer } from "./Timer";

const { bench } = words;

export function BenchPage({ name }: { name: string }) {
  const [job, setJob] = useState<BenchJob | null | "reading">("reading");
  const [at, setAt] = useState(() => Number(localStorage.getItem(`brimful.step.${name}`) ?? 0));
  const [listed, setListed] = useState(false);
  useEffect(() => {
    keepAwake();
    openOutbox(name);
    void benchJob(name).then(setJob);
    void keepPage().catch(() => undefined);
  }, [name]);
  useEffect(() => {
    if (job && job !== "reading") document.title = `${job.bench.title} · ${bench.step(at + 1, job.bench.steps.length)}`;
  }, [job, at]);

  if (job === "reading" || job === null) {
    return (
      <main class="bench">
        <p role="status">{job === null ? bench.notHere : words.wait}</p>
        <a class="button" href={`/job/${encodeURIComponent(name)}`}>
          {bench.back}
        </a>
      </main>
    );
  }
  const { steps, title } = job.bench;
  const here = Math.max(0, Math.min(at, steps.length - 1));
  const go = (to: number) => {
    const next = Math.max(0, Math.min(steps.length - 1, to));
    setAt(next);
    setListed(false);
    localStorage.setItem(`brimful.step.${name}`, String(next));
    scrollTo({ top: 0 });
  };
  const step = steps[here];
  return (
    <div class="bench">
      <header>
        <a class="button" href={`/job/${encodeURIComponent(name)}`}>
          {bench.back}
        </a>
        <h1 title={title}>{title}</h1>
        <button type="button" aria-expanded={listed} onClick={() => setListed(!listed)}>
          {bench.step(here + 1, steps.length)}
          <span class="unseen"> {bench.steps}</span>
        </button>
        <button type="button" onClick={() => setLight(light.value === "dark" ? "light" : "dark")}>
          {light.value === "dark" ? bench.light : bench.dark}
        </button>
      </header>
      {job.bench.stopped && (
        <p class="stopped">
          <Grade grade="stop" wordless /> {bench.stopped}
        </p>
      )}
      <main>
        {listed || !step ? (
          <StepList steps={steps} at={here} go={go} />
        ) : (
          <OneStep key={step.id} job={job} name={name} at={here} step={step} />
        )}
      </main>
      <footer>
        <p role="status">
          {!online.value ? bench.offline : ""} {kept.value.waiting.length > 0 ? bench.waiting(kept.value.waiting.length) : bench.sent}
          {` · ${bench.screen[awake.value]}`}
          {!isSecureContext && ` · ${bench.notKept}`}
        </p>
        <div class="walk">
          <button type="button" aria-disabled={here === 0} onClick={() => go(here - 1)}>
            ◀ {bench.before}
          </button>
          {step && <Tick step={step} next={() => go(here + 1)} />}
          <button type="button" aria-disabled={here >= steps.length - 1} onClick={() => go(here + 1)}>
            {bench.next} ▶
          </button>
        </div>
      </footer>
    </div>
  );
}

function Tick({ step, next }: { step: BenchStep; next: () => void }) {
  const done = ticked(step.id);
  return (
    <button
      type="button"
      class={done ? "tick done" : "tick main"}
      aria-pressed={done}
      onClick={() => {
        add(step.id, done ? "untick" : "tick");
        if (!done) next();
      }}
    >
      {done ? `✓ ${bench.undone}` : bench.done}
    </button>
  );
}

function OneStep({ job, name, at, step }: { job: BenchJob; name: string; at: number; step: BenchStep }) {
  return (
    <article>
      <h2>{step.title}</h2>
      <StepPicture steps={job.bench.steps} at={at} panels={job.panels} seams={job.seams} />
      <p class="says">{step.text}</p>
      {step.prep.length > 0 && (
        <section>
          <h3>{bench.prep}</h3>
          <ul>
            {step.prep.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
      {step.settings.length > 0 && (
        <section>
          <h3>{bench.settings}</h3>
          <dl class="settings">
            {step.settings.map((one) => (
              <div key={one.quantity}>
                <dt>{one.quantity}</dt>
                <dd>
                  {range(one.low, one.high, one.unit)}
                </dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      {step.wait_s !== null && <Timer id={`${name}.${step.id}`} wait_s={step.wait_s} />}
      {step.cautions.length > 0 && (
        <section class="cautions">
          <h3>⚠ {bench.cautions}</h3>
          <ul>
            {step.cautions.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
      <Notes step={step.id} />
    </article>
  );
}

function StepList({ steps, at, go }: { steps: readonly BenchStep[]; at: number; go: (to: number) => void }) {
  return (
    <>
      <h2>
        {bench.steps}: {bench.ticks(steps.filter((step) => ticked(step.id)).length, steps.length)}
      </h2>
      <ol class="step-list">
        {steps.map((step, index) => (
          <li key={step.id}>
            <button type="button" aria-current={index === at ? "step" : undefined} onClick={() => go(index)}>
              <b>{ticked(step.id) ? "✓" : index + 1}</b> {step.text || step.title}
            </button>
          </li>
        ))}
      </ol>
    </>
  );
}
