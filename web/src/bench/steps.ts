// What the bench view needs of a job, kept on the device for when there is no network.

import { ask, jobPath, Refusal } from "../api/client";
import { followJob, system } from "../state/units";
import type { Bench, Model, Plan, Seam } from "../api/types";

export interface BenchJob {
  bench: Bench;
  panels: Model["panels"];
  seams: Seam[];
}

/** From the server, else as it was kept; null where neither is to be had. */
export async function benchJob(name: string): Promise<BenchJob | null> {
  const place = `brimful.bench.${name}`;
  try {
    const { seams, job: read } = await ask<Plan>(jobPath(name, "plan?depth=quick"));
    followJob(read.units);
    const [bench, { panels }] = await Promise.all([
      ask<Bench>(jobPath(name, `bench?units=${system.value}`)),
      ask<Model>(jobPath(name, "model")),
    ]);
    const job = { bench, panels, seams };
    localStorage.setItem(place, JSON.stringify(job));
    return job;
  } catch (error) {
    if (error instanceof Refusal && error.status === 404) return null;
    return JSON.parse(localStorage.getItem(place) ?? "null") as BenchJob | null;
  }
}
