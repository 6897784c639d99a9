// One step: its picture, what to do, and its notes.

import type { BenchStep } from "../api/types";
import { Lines } from "../parts/Lines";
import { StepPicture } from "../parts/StepPicture";
import { range } from "../show/figure";
import { words } from "../words";
import { Notes } from "./Notes";
import { ticked } from "./outbox";
import type { BenchJob } from "./steps";
import { Timer } from "./Timer";

const { bench } = words;

export function StepView({ name, job, at, step }: { name: string; job: BenchJob; at: number; step: BenchStep }) {
  return (
    <article>
      <h2>{step.title}</h2>
      {ticked(step.id, job.contents[step.id]) === "before" && <p class="warn">⚠ {bench.tickedBefore}</p>}
      <StepPicture steps={job.bench.steps} at={at} panels={job.panels} seams={job.seams} />
      <p class="says">{step.text}</p>
      {step.prep.length > 0 && (
        <section>
          <h3>{bench.prep}</h3>
          <ul>
            {step.prep.map(({ id, text }) => (
              <li key={id}>{text}</li>
            ))}
          </ul>
        </section>
      )}
      <Lines title={bench.heldBy} lines={step.held_by} />
      <Lines title={bench.corners} lines={step.corners} />
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
      <Lines title={bench.comesOff} lines={step.comes_off} />
      {step.wait_s !== null && <Timer step={step.id} wait_s={step.wait_s} />}
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
      <Notes job={name} step={step.id} />
    </article>
  );
}
