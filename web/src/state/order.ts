// The order of work: the build of the checked job step by step, an order that is tried, and the poses of a run.

import { batch, computed, signal } from "@preact/signals";
import { ask, jobPath, Refusal } from "../api/client";
import type { Build, BuildRun, Pose, Poses } from "../api/types";
import { words } from "../words";
import { answer, change, model, plan, stale } from "./job";
import { system } from "./units";

/** The build in the order that is shown: the plan's own, or the one that is tried. */
export const build = signal<Build | null>(null);
/** Marks of the panels in the order that is tried; null for the plan's own. */
export const tried = signal<readonly string[] | null>(null);
/** Why the order that is tried cannot be followed. */
export const misfit = signal<string | null>(null);

/** The etag of the text whose build can be asked for: the whole tank has been checked. */
export const checkedEtag = computed(() => (plan.value && !plan.value.draft && !stale.value ? plan.value.etag : null));

/** Whether the build that is shown is of the text as it is. */
export const isCurrent = computed(() => build.value !== null && build.value.etag === checkedEtag.value && build.value.etag === answer.value?.etag);

/** Whether the model has every panel of the build. */
export const isPlayable = computed(() => {
  const marks = new Set(model.value?.panels.map((panel) => panel.mark));
  return build.value?.panels.every((panel) => marks.has(panel.mark)) ?? false;
});

let asking = new AbortController();
let poses = new Map<string, Promise<Poses>>();

/** Loads the plan's own order. */
export function loadBuild(): Promise<void> {
  tried.value = null;
  return load(null);
}

/** Tries an order of the panels: its cost is worked out at once. */
export function tryOrder(marks: readonly string[]): Promise<void> {
  tried.value = marks;
  return load(marks);
}

/** Works out what an order would cost, before it is tried; null for the order that is shown. */
export function costOrder(marks: readonly string[] | null): Promise<void> {
  return load(marks ?? tried.value);
}

async function load(marks: readonly string[] | null): Promise<void> {
  const { name } = answer.value!;
  asking.abort();
  asking = new AbortController();
  const { signal } = asking;
  const panels = marks === null ? "" : `&panels=${marks.map(encodeURIComponent).join(",")}`;
  try {
    const now = await ask<Build | null>(jobPath(name, `order?units=${system.value}${panels}`), { signal });
    if (signal.aborted) return;
    batch(() => {
      if (now?.etag !== build.value?.etag) poses = new Map();
      build.value = now;
      misfit.value = null;
    });
    performance.mark("order");
  } catch (error) {
    if (signal.aborted) return;
    // Where reach is not known, or the check is not done, there is nothing to play.
    if (marks === null) build.value = null;
    else misfit.value = error instanceof Refusal ? `${error.message} ${error.remedy}` : words.noServer;
  }
}

/** A pose at each place of a run among what stands; null where there is none, or the server does not tell. */
export async function posesOf(run: BuildRun, standing: readonly string[]): Promise<readonly (Pose | null)[]> {
  const key = `run=${run.run}&standing=${standing.map(encodeURIComponent).join(",")}`;
  const path = jobPath(answer.value!.name, `order/poses?${key}`);
  const known = poses.get(key) ?? ask<Poses>(path);
  poses.set(key, known);
  try {
    return (await known).poses;
  } catch {
    poses.delete(key);
    return [];
  }
}

/** Writes the order that is shown into the job. */
export function writeOrder(): Promise<boolean> {
  const names = build.value!.panels.map((panel) => panel.name);
  return change({ path: "weld.order", set: names });
}

/** Takes the maker's order out of the job, so that the best one is followed. */
export function dropOrder(): Promise<boolean> {
  return change({ path: "weld", remove: true });
}
