// All steps with their ticks, and the notes of steps that no longer exist.

import { words } from "../words";
import { NotesOf } from "./Notes";
import { notes, ticked } from "./outbox";
import type { BenchJob } from "./steps";

const { bench } = words;

export function StepList({ job, at, go }: { job: BenchJob; at: number; go: (to: number) => void }) {
  const { steps } = job.bench;
  const ticks = steps.map((step) => ticked(step.id, job.contents[step.id]));
  const known = new Set(steps.map(({ id }) => id));
  const gone = new Set(notes.value.map(({ step }) => step).filter((step) => !known.has(step)));
  return (
    <>
      <h2>
        {bench.steps}: {bench.ticks(ticks.filter((one) => one === "yes").length, steps.length)}
      </h2>
      <ol class="step-list">
        {steps.map((step, index) => (
          <li key={step.id}>
            <button type="button" aria-current={index === at ? "step" : undefined} onClick={() => go(index)}>
              <b>{ticks[index] === "yes" ? "✓" : index + 1}</b>{" "}
              <span>
                {step.text || step.title}
                {ticks[index] === "before" && <strong> ⚠ {bench.tickedBefore}</strong>}
              </span>
            </button>
          </li>
        ))}
      </ol>
      {gone.size > 0 && (
        <section class="notes">
          <h3>{bench.gone}</h3>
          {[...gone].map((step) => (
            <section key={step}>
              <h4>{step}</h4>
              <NotesOf step={step} />
            </section>
          ))}
        </section>
      )}
    </>
  );
}
