// The open job: its file, the last good plan and model, and the work that follows an edit.
//
//   change ─▶ PATCH ─▶ answer ─▶ quick plan + model (draft) ─▶ whole plan
//
// Edits are queued, and each is sent with the etag of the answer before it. A newer edit cancels the work
// of an older one. Where the file has changed since then nothing is overwritten: the user decides.

import { batch, computed, effect, signal } from "@preact/signals";
import { ask, jobPath, Refusal, windowId } from "../api/client";
import type { About, Cause, Edit, JobAnswer, Model, Plan, Remedy, Written } from "../api/types";
import { Cancelled, Lost, work, type Progress } from "../api/work";
import { at } from "./path";
import { words } from "../words";
import { followJob, system } from "./units";

export interface Conflict {
  /** What this window was about to save. */
  mine: Edit[] | { text: string };
  /** The text that the change was made to. */
  before: string;
  theirs: { text: string; etag: string };
}

export const about = signal<About | null>(null);
export const answer = signal<JobAnswer | null>(null);
export const plan = signal<Plan | null>(null);
export const model = signal<Model | null>(null);
/** The load case whose bulge is shown; null for the worst lasting one. */
export const loadCase = signal<string | null>(null);
export const progress = signal<Progress | null>(null);
export const remedies = signal<Remedy[] | "asking" | "unsupported" | null>(null);
export const conflict = signal<Conflict | null>(null);
/** What could not be done, as a sentence; empty where the server does not answer. */
export const problem = signal<string | null>(null);

/** An unsaved text of the whole file, and the etag of the text that it started from. */
export const textDraft = signal<{ text: string; etag: string } | null>(null);

/** What is known of the text as it is: a plan of another text says nothing of it. */
export type Verdict = "faulty" | "old" | "draft" | "stopped" | "at_limit" | "clear";

export const verdict = computed<Verdict | null>(() => {
  const [now, known] = [answer.value, plan.value];
  if (!now || !known) return null;
  if (now.faults.length > 0) return "faulty";
  if (known.etag !== now.etag) return "old";
  if (known.draft) return "draft";
  if (known.causes.some((cause) => cause.grade === "stop")) return "stopped";
  return atLimit().length > 0 ? "at_limit" : "clear";
});

/** The plan belongs to another text of the file than the one that is there now. */
/** Causes at a limit that is not known so closely: neither over it nor safely under. */
export function atLimit(): Cause[] {
  const now = plan.value;
  const kinds = ["strength.at_limit", "strength.root_at_limit", "strength.add_up"];
  return now?.causes.filter((cause) => cause.grade === "mend" && kinds.includes(now.findings[cause.findings[0]!]!.kind)) ?? [];
}

export const stale = computed(() => verdict.value === "faulty" || verdict.value === "old");

let running = new AbortController();
let unfollowUnits = () => {};
let queue: Promise<boolean> = Promise.resolve(true);
let events: EventSource | null = null;
let isDisconnected = false;
let isReadFailed = false;
let reconnectTimer: ReturnType<typeof setTimeout> | undefined;
const RECONNECT_MS = 3000;

export async function open(name: string): Promise<void> {
  close();
  about.value ??= await ask<About>("about");
  applyAnswer(await ask<JobAnswer>(jobPath(name)));
  connect();
  unfollowUnits = effect(() => void (system.value, refreshUnits()));
  document.addEventListener("visibilitychange", onVisibilityChange);
  window.addEventListener("pagehide", cancel);
}

export function close(): void {
  running.abort();
  disconnect();
  unfollowUnits();
  document.removeEventListener("visibilitychange", onVisibilityChange);
  window.removeEventListener("pagehide", cancel);
  batch(() => {
    loadCase.value = answer.value = plan.value = model.value = progress.value = remedies.value = conflict.value = problem.value = textDraft.value = null;
  });
}

/** Listens for changes by others, and for the server going away and coming back. */
function connect(): void {
  clearTimeout(reconnectTimer);
  const source = new EventSource(`/api/${jobPath(answer.value!.name, "events")}?window=${windowId}`);
  source.addEventListener("changed", (event) => {
    const { etag, by } = JSON.parse((event as MessageEvent<string>).data) as { etag: string; by: string | null };
    const isNew = etag !== answer.value?.etag || isReadFailed;
    if (by !== windowId && isNew && !conflict.value) void enqueue(reload);
  });
  source.onerror = () => {
    // A request tells whether the server is gone or refuses.
    if (!isDisconnected && !conflict.value) void enqueue(reload);
    isDisconnected = true;
    // After a refusal the browser does not reconnect by itself.
    if (source.readyState === EventSource.CLOSED) reconnectTimer = setTimeout(connect, RECONNECT_MS);
  };
  source.onopen = () => {
    if (isDisconnected && !conflict.value) void enqueue(reload).then(resumeCheck);
    isDisconnected = false;
  };
  events = source;
}

function disconnect(): void {
  events?.close();
  events = null;
  clearTimeout(reconnectTimer);
}

/** Resumes the whole check that was lost with the server. */
function resumeCheck(): void {
  const isMissing = plan.value === null || verdict.value === "draft" || verdict.value === "old";
  if (isMissing && progress.value === null && answer.value?.faults.length === 0) checkWhole();
}

/** A browser allows few connections per server: a hidden window releases its own. */
function onVisibilityChange(): void {
  disconnect();
  if (document.visibilityState === "hidden") return;
  connect();
  if (!conflict.value) void enqueue(reload);
}

/** Saves edits as they were typed, then checks the job; false where they were not saved. */
export function change(...edits: Edit[]): Promise<boolean> {
  return changeFrom(() => edits);
}

/** The same for edits that depend on the file: they are made once the edits before have been answered. */
export function changeFrom(now: () => Edit[]): Promise<boolean> {
  performance.mark("edit");
  return enqueueSave(async () => {
    const edits = now();
    if (edits.length > 0) await save(edits, "PATCH", "", { edits });
  });
}

/** Saves the whole text, unless the file has changed since the text was started. */
export function saveText({ text, etag }: { text: string; etag: string }): Promise<boolean> {
  performance.mark("edit");
  return enqueueSave(() => save({ text }, "PUT", "text", { text }, etag));
}

export function undo(): Promise<boolean> {
  return enqueueSave(() => save([], "POST", "undo", {}));
}

export function redo(): Promise<boolean> {
  return enqueueSave(() => save([], "POST", "redo", {}));
}

/** Resolves a conflict by keeping the file as it is on disk. */
export function keepTheirs(): Promise<boolean> {
  if (!Array.isArray(conflict.value?.mine)) textDraft.value = null;
  conflict.value = null;
  return enqueue(reload);
}

/** Resolves a conflict by applying this window's change to the file as it is on disk. */
export async function applyMine(): Promise<void> {
  const met = conflict.value!;
  const { mine, theirs } = met;
  conflict.value = null;
  const isSaved = await (Array.isArray(mine)
    ? enqueueSave(() => save(mine, "PATCH", "", { edits: mine }, theirs.etag))
    : saveText({ text: mine.text, etag: theirs.etag }));
  if (!isSaved) conflict.value = met;
  else if (!Array.isArray(mine) && !conflict.value) textDraft.value = null;
}

/** The value at a key of the file, as typed. */
export function written(path: string): Written | undefined {
  return at(answer.value?.written, path) as Written | undefined;
}

/** Why work is cancelled: the job was changed. */
const CHANGED = "changed";

/** Cancels the running work; the draft figures stay. */
export function cancel(): void {
  cancelWork();
}

function cancelWork(why?: typeof CHANGED): void {
  running.abort(why);
  running = new AbortController();
  progress.value = null;
}

/** Checks the job as it is now. */
export function checkWhole(): void {
  cancelWork(CHANGED);
  progress.value = { done: 0, total: 0, says: "" };
  void evaluate(running.signal);
}

/** Asks for changes that would fix the findings, each one checked. */
export async function askRemedies(): Promise<void> {
  const { name } = answer.value!;
  remedies.value = "asking";
  const found = await runWork<{ remedies: Remedy[] }>(name, "remedies");
  remedies.value = found === null || found === "unsupported" ? found : found.remedies;
  // The remedies appear in the findings too.
  if (Array.isArray(remedies.value)) await refreshPlan();
}

/** Long-running work that the user waits for; null where it was cancelled or failed, which is then shown. */
export async function runWork<T extends object>(name: string, what: string): Promise<T | "unsupported" | null> {
  const { signal } = running;
  const units = system.value;
  try {
    return await work<T>(name, what, units, (now) => !signal.aborted && (progress.value = now), signal);
  } catch (error) {
    if (error instanceof Refusal && error.status === 501) return "unsupported";
    // The server cancels work for a change before this page has the answer to that change.
    const isDropped = signal.reason === CHANGED || (error instanceof Cancelled && !signal.aborted);
    if (isDropped) problem.value = words.dropped;
    else if (!(error instanceof Cancelled)) report(error);
    return null;
  } finally {
    if (!signal.aborted) {
      progress.value = null;
      if (system.value !== units) void refreshUnits();
    }
  }
}

/** The number of changes that are being saved. */
export const saving = signal(0);
/** The number of fields that could not be saved. */
export const unsaved = signal(0);

function enqueueSave(act: () => Promise<void>): Promise<boolean> {
  saving.value += 1;
  return enqueue(act).finally(() => (saving.value -= 1));
}

function enqueue(act: () => Promise<void>): Promise<boolean> {
  queue = queue.then(act).then(
    () => true,
    (error) => {
      report(error);
      return false;
    },
  );
  return queue;
}

async function save(mine: Conflict["mine"], method: string, what: string, body: unknown, on?: string): Promise<void> {
  const { name, etag, text } = answer.value!;
  try {
    applyAnswer(await ask<JobAnswer>(jobPath(name, what), { method, body, etag: on ?? etag }));
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 412) throw error;
    const earlier = conflict.value?.mine;
    // Edits that were queued behind the conflicting one join it.
    const all = Array.isArray(earlier) && Array.isArray(mine) ? [...earlier, ...mine] : mine;
    conflict.value = { mine: all, before: text, theirs: { text: error.body.text ?? "", etag: error.body.etag ?? "" } };
  }
}

/** Reads the file again; work on an unchanged text continues. */
async function reload(): Promise<void> {
  const wasReadFailed = isReadFailed;
  isReadFailed = true;
  const now = await ask<JobAnswer>(jobPath(answer.value!.name));
  isReadFailed = false;
  if (now.etag !== answer.value!.etag) applyAnswer(now);
  // Any other problem remains.
  else if (wasReadFailed || problem.value === "") problem.value = null;
}

function applyAnswer(now: JobAnswer): void {
  batch(() => {
    problem.value = null;
    remedies.value = null;
    answer.value = now;
  });
  if (now.job) followJob(now.job.units, at(now.written, "job.fraction"));
  if (now.faults.length === 0) checkWhole();
  else cancelWork(CHANGED);
}

async function evaluate(signal: AbortSignal): Promise<void> {
  const { name, etag } = answer.value!;
  const units = system.value;
  try {
    // Figures first, since they are read first; the model follows at once.
    const draft = await ask<Plan>(jobPath(name, `plan?depth=quick&units=${system.value}`), { signal });
    if (signal.aborted) return;
    plan.value = draft;
    mark("draft");
    const shapes = await ask<Model>(jobPath(name, `model?units=${units}`), { signal });
    if (signal.aborted) return;
    model.value = shapes;
    mark("pictures");
    const whole = await wholePlan(name, signal);
    if (signal.aborted || whole.etag !== answer.value?.etag) return;
    plan.value = whole;
    mark("whole");
    progress.value = null;
    if (loadCase.value !== null && !loadCaseIds(whole).includes(loadCase.value)) loadCase.value = null;
    if (system.value !== units) await refreshUnits();
    await loadModel(name, signal);
  } catch (error) {
    if (signal.aborted) return;
    progress.value = null;
    const faults = error instanceof Refusal ? error.body.faults : undefined;
    // A job that can be read but not built has a fault like any other; its sizes can still be dragged.
    if (faults?.length && etag === answer.value?.etag) answer.value = { ...answer.value, faults };
    else report(error);
  }
}

function loadCaseIds(plan: Plan): string[] {
  return plan.strength.whole?.load_cases.map((one) => one.id) ?? [];
}

function modelPath(name: string): string {
  const load = loadCase.value;
  const bulge = load === null ? "" : `&bulge=${encodeURIComponent(load)}`;
  return jobPath(name, `model?units=${system.value}${bulge}`);
}

/** Loads the model under the load case that is chosen by then. */
async function loadModel(name: string, signal: AbortSignal): Promise<void> {
  for (;;) {
    const path = modelPath(name);
    const shapes = await ask<Model>(path, { signal });
    if (path !== modelPath(name)) continue;
    if (shapes.etag === answer.value?.etag) model.value = shapes;
    return;
  }
}

/** Shows the bulge under a load case, by its id; null for the worst lasting one. */
export async function showLoad(load: string | null): Promise<void> {
  loadCase.value = load;
  if (!model.value?.bulge) return;
  try {
    await loadModel(answer.value!.name, running.signal);
  } catch (error) {
    report(error);
  }
}

/** Requests the sentences in the current units, unless running work does so anyway. */
async function refreshUnits(): Promise<void> {
  const [now, before] = [answer.peek(), plan.peek()];
  if (!now || !before || progress.peek() || stale.peek()) return;
  if (Array.isArray(remedies.peek())) await askRemedies();
  else await refreshPlan();
}

/** Requests the plan as the server has it. */
async function refreshPlan(): Promise<void> {
  try {
    const said = await ask<Plan>(jobPath(answer.peek()!.name, `plan?depth=best&units=${system.peek()}`), { signal: running.signal });
    const before = plan.peek();
    if (said.etag !== before?.etag) return;
    // The server caches the whole plans of only a few jobs.
    if (said.draft && !before.draft) return checkWhole();
    plan.value = said;
    measurePaint("units");
    if (model.peek()?.bulge) await loadModel(answer.peek()!.name, running.signal);
  } catch (error) {
    report(error);
  }
}

/**
 * The whole check. Where another window's request replaced this one, or the server was restarted, it is
 * requested again with growing delay: the result is shared by all windows.
 */
async function wholePlan(name: string, signal: AbortSignal): Promise<Plan> {
  for (let wait_s = 4; ; wait_s *= 2) {
    try {
      return await work<Plan>(name, "whole", system.value, (now) => !signal.aborted && (progress.value = now), signal);
    } catch (error) {
      if (signal.aborted || !(error instanceof Cancelled || error instanceof Lost)) throw error;
    }
    await new Promise((resolve) => setTimeout(resolve, wait_s * 1000));
    signal.throwIfAborted();
  }
}

/** Performance marks for the benchmark: from the edit to the paint. */
function mark(what: string): void {
  requestAnimationFrame(() => {
    if (performance.getEntriesByName("edit").length > 0) performance.measure(`edit to ${what}`, "edit");
  });
}

/** The same from a mark of another name. */
function measurePaint(from: string): void {
  requestAnimationFrame(() => {
    if (performance.getEntriesByName(from).length > 0) performance.measure(`${from} to words`, from);
  });
}

function report(error: unknown): void {
  if (error instanceof DOMException && error.name === "AbortError") return;
  const fault = error instanceof Refusal ? error.body.faults?.[0] : undefined;
  if (fault) problem.value = `${fault.says} ${fault.remedy}`.trim();
  else if (error instanceof Refusal) problem.value = `${error.message} ${error.remedy}`.trim();
  else problem.value = error instanceof Error && !(error instanceof TypeError) && error.message ? error.message : "";
}
