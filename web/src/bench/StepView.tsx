// One step: its picture, what to do, and its notes.

import type { BenchStep } from "../api/types";
import { StepDetails } from "../parts/StepDetails";
import { StepPicture } from "../parts/StepPicture";
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
      <StepDetails step={step}>{step.wait_s !== null && <Timer step={step.id} wait_s={step.wait_s} />}</StepDetails>
      <Notes job={name} step={step.id} />
    </article>
  );
}
