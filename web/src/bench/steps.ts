// What the bench view needs of a job: from the server, else as this device stored it.

import { batch, signal } from "@preact/signals";
import { jobPath, Refusal } from "../api/client";
import { followJob, system } from "../state/units";
import type { Bench, Model, Plan, Seam } from "../api/types";
import { contents } from "./contents";
import { askServer, isVisible, poll } from "./connection";
import { load, store } from "./store";

export interface BenchJob {
  bench: Bench;
  panels: Model["panels"];
  seams: Seam[];
  /** Findings that stop the build. */
  stops: number;
  /** A hash of the work of each step, by its id. */
  contents: Record<string, string>;
  read_ms: number;
}

/** Null until the server has answered or failed, and where neither it nor this device has the steps. */
export const job = signal<BenchJob | null>(null);
/** Why the server refuses the current steps; null where it does not, or is not reached. */
export const refusal = signal<Refusal | null>(null);
export const isAsked = signal(false);
/** The steps differ from those that this device showed last, and nobody has confirmed it yet. */
export const isChanged = signal(false);

/** The steps were read from the server since the page was last visible. */
let isFresh = false;

/** Opens a job and follows it; returns a function that stops. */
export function openJob(name: string): () => void {
  const expire = () => (isFresh = false);
  // What the etag does not tell, such as a check that has finished, is read when the page is visible again.
  document.addEventListener("visibilitychange", expire);
  // First what is stored: the server may be slow, or away.
  job.value = stored(name);
  const polling = poll(() => refresh(name));
  return () => {
    document.removeEventListener("visibilitychange", expire);
    polling.stop();
  };
}

async function refresh(name: string): Promise<void> {
  if (!isVisible()) return;
  try {
    if (!isFresh || !(await isSame(name))) await read(name);
  } catch (error) {
    batch(() => {
      isFresh = false;
      job.value ??= stored(name);
      refusal.value = error instanceof Refusal ? error : null;
    });
  }
  isAsked.value = true;
}

async function isSame(name: string): Promise<boolean> {
  const { etag, stopped, draft } = await askBench(name);
  const known = job.value;
  return etag === known?.bench.etag && stopped === known.stops > 0 && draft === known.bench.draft;
}

async function read(name: string): Promise<void> {
  const plan = await askServer<Plan>(jobPath(name, "plan?depth=best"));
  followJob(plan.job.units);
  const [bench, model] = await Promise.all([askBench(name), askServer<Model>(jobPath(name, "model"))]);
  // The job was changed between two answers: ask again until they agree.
  if (bench.etag !== plan.etag || model.etag !== plan.etag) return read(name);
  const before = job.value ?? stored(name);
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
  storeJob(name, now);
}

function askBench(name: string): Promise<Bench> {
  return askServer<Bench>(jobPath(name, `bench?units=${system.value}`));
}

function storeJob(name: string, now: BenchJob): void {
  // Without the network, none is better than an older state.
  if (!store(key(name), now)) localStorage.removeItem(key(name));
}

function stored(name: string): BenchJob | null {
  return load<BenchJob>(key(name));
}

function key(name: string): string {
  return `brimful.steps/${name}`;
}
