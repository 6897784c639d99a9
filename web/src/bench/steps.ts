// What the bench view needs of a job: as the server has it now, else as this device kept it.

import { batch, signal } from "@preact/signals";
import { jobPath, Refusal } from "../api/client";
import { followJob, system } from "../state/units";
import type { Bench, Model, Plan, Seam } from "../api/types";
import { contents } from "./contents";
import { askServer, isSeen, regularly } from "./line";
import { load, store } from "./store";

export interface BenchJob {
  bench: Bench;
  panels: Model["panels"];
  seams: Seam[];
  /** Findings that stop the build. */
  stops: number;
  /** What each step is about, by its id: another wherever the work is another. */
  contents: Record<string, string>;
  read_ms: number;
}

/** Null until the server has answered or failed to, and where neither it nor this device has the steps. */
export const job = signal<BenchJob | null>(null);
/** Why the server does not give the steps as they are now; null where it does, or is not reached. */
export const refusal = signal<Refusal | null>(null);
export const isAsked = signal(false);
/** Steps are others than this device showed last, and nobody has said yet that he saw it. */
export const isChanged = signal(false);

/** The steps come from the server since the page was last seen. */
let isFresh = false;

/** Opens a job and follows it; answers how to stop. */
export function openJob(name: string): () => void {
  const forget = () => (isFresh = false);
  // What the etag does not tell, as a check that was finished, is read by whoever comes back to the page.
  document.addEventListener("visibilitychange", forget);
  // At once what is kept; the server may be long in answering, or away.
  job.value = kept(name);
  const beat = regularly(() => look(name));
  return () => {
    document.removeEventListener("visibilitychange", forget);
    beat.stop();
  };
}

async function look(name: string): Promise<void> {
  if (!isSeen()) return;
  try {
    if (!isFresh || !(await isSame(name))) await read(name);
  } catch (error) {
    batch(() => {
      isFresh = false;
      job.value ??= kept(name);
      refusal.value = error instanceof Refusal ? error : null;
    });
  }
  isAsked.value = true;
}

async function isSame(name: string): Promise<boolean> {
  const { etag, stopped } = await askBench(name);
  return etag === job.value?.bench.etag && stopped === job.value.stops > 0;
}

async function read(name: string): Promise<void> {
  const plan = await askServer<Plan>(jobPath(name, "plan?depth=best"));
  followJob(plan.job.units);
  const [bench, model] = await Promise.all([askBench(name), askServer<Model>(jobPath(name, "model"))]);
  // The job was changed between two answers: asked anew, they will agree.
  if (bench.etag !== plan.etag || model.etag !== plan.etag) return read(name);
  const before = job.value ?? kept(name);
  const now: BenchJob = {
    bench,
    panels: model.panels,
    seams: plan.seams,
    stops: plan.findings.filter(({ grade }) => grade === "stop").length,
    contents: contents(bench.steps, plan),
    read_ms: Date.now(),
  };
  batch(() => {
    isFresh = true;
    if (before && JSON.stringify(before.contents) !== JSON.stringify(now.contents)) isChanged.value = true;
    job.value = now;
    refusal.value = null;
  });
  keep(name, now);
}

function askBench(name: string): Promise<Bench> {
  return askServer<Bench>(jobPath(name, `bench?units=${system.value}`));
}

function keep(name: string, now: BenchJob): void {
  // Better none without the network than those of an older state.
  if (!store(place(name), now)) localStorage.removeItem(place(name));
}

function kept(name: string): BenchJob | null {
  return load<BenchJob>(place(name));
}

function place(name: string): string {
  return `brimful.steps/${name}`;
}
