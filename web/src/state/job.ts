// The open job: what is in its file, the last good plan and model, and the work that follows an edit.
//
//   change ─▶ PATCH ─▶ answer ─▶ quick plan + model (draft) ─▶ whole plan (through its events)
//
// Edits go one after another, each with the etag of the answer before it. A newer edit cancels the
// work of an older one. Where the file changed meanwhile nothing is sent again by itself.

import { batch, computed, effect, signal } from "@preact/signals";
import { ask, jobPath, Refusal, windowId } from "../api/client";
import type { About, Edit, JobAnswer, Model, Plan, Remedy } from "../api/types";
import { Cancelled, work, type Progress } from "../api/work";
import { at } from "./path";
import { followJob, system } from "./units";

export interface Conflict {
  /** What was to be saved here. */
  mine: Edit[] | { text: string };
  /** The text that the change was made on. */
  before: string;
  theirs: { text: string; etag: string };
}

export const about = signal<About | null>(null);
export const answer = signal<JobAnswer | null>(null);
export const plan = signal<Plan | null>(null);
export const model = signal<Model | null>(null);
/** The load whose bulge is shown; null for the lasting one that asks most. */
export const loadCase = signal<string | null>(null);
export const progress = signal<Progress | null>(null);
export const remedies = signal<Remedy[] | "asking" | "unsupported" | null>(null);
export const conflict = signal<Conflict | null>(null);
/** A sentence that something could not be done. */
export const trouble = signal<string | null>(null);

/** The picture belongs to an older text of the file, since the newest has faults. */
export const stale = computed(() => (answer.value?.faults.length ?? 0) > 0);

let following = new AbortController();
let unfollowUnits = () => {};
let queue: Promise<boolean> = Promise.resolve(true);
let events: EventSource | null = null;

export async function open(name: string): Promise<void> {
  close();
  about.value ??= await ask<About>("about");
  taken(await ask<JobAnswer>(jobPath(name)));
  listen();
  unfollowUnits = effect(() => void (system.value, reword()));
  document.addEventListener("visibilitychange", whenSeen);
  window.addEventListener("pagehide", stop);
}

export function close(): void {
  following.abort();
  events?.close();
  events = null;
  unfollowUnits();
  document.removeEventListener("visibilitychange", whenSeen);
  window.removeEventListener("pagehide", stop);
  batch(() => {
    loadCase.value = answer.value = plan.value = model.value = progress.value = remedies.value = conflict.value = trouble.value = null;
  });
}

/** Hears of changes that others make. */
function listen(): void {
  events = new EventSource(`/api/${jobPath(answer.value!.name, "events")}?window=${windowId}`);
  events.addEventListener("changed", (event) => {
    const { etag, by } = JSON.parse((event as MessageEvent<string>).data) as { etag: string; by: string | null };
    if (by !== windowId && etag !== answer.value?.etag && !conflict.value) void inTurn(reload);
  });
}

/** A browser keeps few connections to a server: a window out of sight gives its own back. */
function whenSeen(): void {
  events?.close();
  if (document.visibilityState === "hidden") return;
  listen();
  void inTurn(async () => {
    const now = await ask<JobAnswer>(jobPath(answer.value!.name));
    if (now.etag !== answer.value!.etag && !conflict.value) taken(now);
  });
}

/** Saves edits as they were typed, and works out what follows; false where the server was not reached. */
export function change(...edits: Edit[]): Promise<boolean> {
  return changeFrom(() => edits);
}

/** The same for edits that go on from what the file holds once those before have been answered. */
export function changeFrom(now: () => Edit[]): Promise<boolean> {
  performance.mark("edit");
  return inTurn(async () => {
    const edits = now();
    if (edits.length > 0) await save(edits, "PATCH", "", { edits });
  });
}

/** Saves the whole text. */
export function write(text: string): Promise<boolean> {
  performance.mark("edit");
  return inTurn(() => save({ text }, "PUT", "text", { text }));
}

export function undo(): Promise<boolean> {
  return inTurn(() => save([], "POST", "undo", {}));
}

export function redo(): Promise<boolean> {
  return inTurn(() => save([], "POST", "redo", {}));
}

/** Leaves the file as it is on disk and shows it. */
export function takeTheirs(): Promise<boolean> {
  conflict.value = null;
  return inTurn(reload);
}

/** Puts what was to be saved into the file as it is on disk now. */
export function putMine(): Promise<boolean> {
  const { mine, theirs } = conflict.value!;
  conflict.value = null;
  answer.value = { ...answer.value!, etag: theirs.etag };
  return Array.isArray(mine) ? change(...mine) : write(mine.text);
}

/** The value at a key of the file, as typed. */
export function written(path: string): unknown {
  return at(answer.value?.written, path);
}

/** Stops the long work that runs; the draft figures stay. */
export function stop(): void {
  following.abort();
  progress.value = null;
}

/** Works out the whole check again where it was stopped. */
export function follow(): void {
  following.abort();
  following = new AbortController();
  void figures(following.signal);
}

/** What would cure it, each change worked out. */
export async function askRemedies(): Promise<void> {
  const { name } = answer.value!;
  remedies.value = "asking";
  const found = await long<{ remedies: Remedy[] }>(name, "remedies");
  remedies.value = found === null || found === "unsupported" ? found : found.remedies;
  // What was found is one of the findings too.
  if (Array.isArray(remedies.value)) await say();
}

/** Long work for a person who waits; null where it was stopped or failed, which is then said. */
export async function long<T extends object>(name: string, what: string): Promise<T | "unsupported" | null> {
  try {
    return await work<T>(name, what, system.value, (now) => (progress.value = now), following.signal);
  } catch (error) {
    if (error instanceof Refusal && (error.status === 501 || error.status === 404)) return "unsupported";
    if (!(error instanceof Cancelled)) report(error);
    return null;
  } finally {
    progress.value = null;
  }
}

function inTurn(act: () => Promise<void>): Promise<boolean> {
  queue = queue.then(act).then(
    () => true,
    (error) => {
      report(error);
      return false;
    },
  );
  return queue;
}

async function save(mine: Conflict["mine"], method: string, what: string, body: unknown): Promise<void> {
  const { name, etag, text } = answer.value!;
  try {
    taken(await ask<JobAnswer>(jobPath(name, what), { method, body, etag }));
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 412) throw error;
    const earlier = conflict.value?.mine;
    // What was queued behind a change that met another's is put with it.
    const all = Array.isArray(earlier) && Array.isArray(mine) ? [...earlier, ...mine] : mine;
    conflict.value = { mine: all, before: text, theirs: { text: error.body.text ?? "", etag: error.body.etag ?? "" } };
  }
}

async function reload(): Promise<void> {
  taken(await ask<JobAnswer>(jobPath(answer.value!.name)));
}

function taken(now: JobAnswer): void {
  batch(() => {
    trouble.value = null;
    remedies.value = null;
    answer.value = now;
  });
  if (now.job) followJob(now.job.units);
  if (now.faults.length === 0) follow();
}

async function figures(signal: AbortSignal): Promise<void> {
  const { name, etag } = answer.value!;
  const units = system.value;
  try {
    // Figures first, since they are read first; the pictures follow in the same breath.
    const draft = await ask<Plan>(jobPath(name, `plan?depth=quick&units=${system.value}`), { signal });
    if (signal.aborted) return;
    batch(() => {
      plan.value = draft;
      progress.value = { done: 0, total: 0, says: "" };
    });
    mark("draft");
    const shapes = await ask<Model>(jobPath(name, `model?units=${units}`), { signal });
    if (signal.aborted) return;
    model.value = shapes;
    mark("pictures");
    const whole = await wholePlan(name, signal);
    if (signal.aborted || etag !== answer.value?.etag) return;
    plan.value = whole;
    mark("whole");
    progress.value = null;
    if (loadCase.value !== null && !loadCasesOf(whole).includes(loadCase.value)) loadCase.value = null;
    if (system.value !== units) await reword();
    model.value = await ask<Model>(modelPath(name), { signal });
  } catch (error) {
    if (signal.aborted) return;
    progress.value = null;
    report(error);
  }
}

function loadCasesOf(plan: Plan): string[] {
  return plan.strength.whole?.load_cases.map((one) => one.name) ?? [];
}

function modelPath(name: string): string {
  const load = loadCase.value;
  const bulge = load === null ? "" : `&bulge=${encodeURIComponent(load)}`;
  return jobPath(name, `model?units=${system.value}${bulge}`);
}

/** Shows the bulge under a load; null for the lasting one that asks most. */
export async function showLoad(load: string | null): Promise<void> {
  loadCase.value = load;
  if (!model.value?.bulge) return;
  try {
    const shapes = await ask<Model>(modelPath(answer.value!.name), { signal: following.signal });
    if (loadCase.value === load && shapes.etag === model.value?.etag) model.value = shapes;
  } catch (error) {
    report(error);
  }
}

/** Sentences in the units that are shown now. What is being worked out asks for them by itself. */
async function reword(): Promise<void> {
  const [now, before] = [answer.peek(), plan.peek()];
  if (!now || !before || progress.peek() || stale.peek()) return;
  if (Array.isArray(remedies.peek())) await askRemedies();
  else await say();
}

/** The figures and sentences as the server has them now. */
async function say(): Promise<void> {
  try {
    const said = await ask<Plan>(jobPath(answer.peek()!.name, `plan?depth=best&units=${system.peek()}`), { signal: following.signal });
    const before = plan.peek();
    if (said.etag !== before?.etag) return;
    batch(() => {
      // A load goes by its name, which has figures in it: the same load is in the same place.
      const place = loadCasesOf(before).indexOf(loadCase.peek() ?? "");
      loadCase.value = loadCasesOf(said)[place] ?? null;
      plan.value = said;
    });
    if (model.peek()?.bulge) model.value = await ask<Model>(modelPath(answer.peek()!.name), { signal: following.signal });
  } catch (error) {
    report(error);
  }
}

/**
 * The whole check. Where another window's asking took the place of this one's, asks again later and
 * later: what was worked out for one window is kept for all.
 */
async function wholePlan(name: string, signal: AbortSignal): Promise<Plan> {
  for (let wait_s = 4; ; wait_s *= 2) {
    try {
      return await work<Plan>(name, "whole", system.value, (now) => !signal.aborted && (progress.value = now), signal);
    } catch (error) {
      if (signal.aborted || !(error instanceof Cancelled)) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, wait_s * 1000));
    signal.throwIfAborted();
  }
}

/** The browser's own marks, read by the benchmark: from the edit to what was painted. */
function mark(what: string): void {
  requestAnimationFrame(() => {
    if (performance.getEntriesByName("edit").length > 0) performance.measure(`edit to ${what}`, "edit");
  });
}

function report(error: unknown): void {
  if (error instanceof DOMException && error.name === "AbortError") return;
  const fault = error instanceof Refusal ? error.body.faults?.[0] : undefined;
  if (fault) trouble.value = `${fault.says} ${fault.remedy}`.trim();
  else if (error instanceof Refusal) trouble.value = `${error.message} ${error.remedy}`.trim();
  else trouble.value = error instanceof Error && !(error instanceof TypeError) && error.message ? error.message : "";
}
