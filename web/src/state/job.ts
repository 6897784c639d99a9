// The open job: what is in its file, the last good plan and model, and the work that follows an edit.
//
//   change ─▶ PATCH ─▶ answer ─▶ quick plan + model (draft) ─▶ whole plan (through its events)
//
// Edits go one after another, each with the etag of the answer before it. A newer edit cancels the
// work of an older one. Where the file changed meanwhile nothing is sent again by itself.

import { batch, computed, effect, signal } from "@preact/signals";
import { ask, jobPath, Refusal, windowId } from "../api/client";
import type { About, Edit, JobAnswer, Model, Plan, Remedy, Written } from "../api/types";
import { Cancelled, Lost, work, type Progress } from "../api/work";
import { at } from "./path";
import { words } from "../words/en";
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

/** An unsaved text of the whole file, and the text it was begun on. */
export const textDraft = signal<{ text: string; etag: string } | null>(null);

/** The picture belongs to an older text of the file, since the newest has faults. */
export const stale = computed(() => (answer.value?.faults.length ?? 0) > 0);

let following = new AbortController();
let unfollowUnits = () => {};
let queue: Promise<boolean> = Promise.resolve(true);
let events: EventSource | null = null;
/** Whether the line to the server is broken. */
let isLost = false;
/** Whether the file could not be read when it was asked for last. */
let isUnread = false;
let again: ReturnType<typeof setTimeout> | undefined;
const LISTEN_AGAIN_MS = 3000;

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
  deaf();
  unfollowUnits();
  document.removeEventListener("visibilitychange", whenSeen);
  window.removeEventListener("pagehide", stop);
  batch(() => {
    loadCase.value = answer.value = plan.value = model.value = progress.value = remedies.value = conflict.value = trouble.value = textDraft.value = null;
  });
}

/** Hears of changes that others make, and of the server's going and coming back. */
function listen(): void {
  clearTimeout(again);
  const source = new EventSource(`/api/${jobPath(answer.value!.name, "events")}?window=${windowId}`);
  source.addEventListener("changed", (event) => {
    const { etag, by } = JSON.parse((event as MessageEvent<string>).data) as { etag: string; by: string | null };
    const isNew = etag !== answer.value?.etag || isUnread;
    if (by !== windowId && isNew && !conflict.value) void inTurn(reload);
  });
  source.onerror = () => {
    // Asking tells whether no server is there or one that refuses.
    if (!isLost && !conflict.value) void inTurn(reload);
    isLost = true;
    // After a refusal a browser does not try again by itself.
    if (source.readyState === EventSource.CLOSED) again = setTimeout(listen, LISTEN_AGAIN_MS);
  };
  source.onopen = () => {
    if (isLost && !conflict.value) void inTurn(reload).then(followOn);
    isLost = false;
  };
  events = source;
}

function deaf(): void {
  events?.close();
  events = null;
  clearTimeout(again);
}

/** Goes on with the whole check where it broke off with the server. */
function followOn(): void {
  if (plan.value?.draft !== false && progress.value === null && !stale.value) follow();
}

/** A browser keeps few connections to a server: a window out of sight gives its own back. */
function whenSeen(): void {
  deaf();
  if (document.visibilityState === "hidden") return;
  listen();
  if (!conflict.value) void inTurn(reload);
}

/** Saves edits as they were typed, and works out what follows; false where the server was not reached. */
export function change(...edits: Edit[]): Promise<boolean> {
  return changeFrom(() => edits);
}

/** The same for edits that go on from what the file holds once those before have been answered. */
export function changeFrom(now: () => Edit[]): Promise<boolean> {
  performance.mark("edit");
  return saved(async () => {
    const edits = now();
    if (edits.length > 0) await save(edits, "PATCH", "", { edits });
  });
}

/** Saves the whole text, where the file still is as it was when the change was begun. */
export function write({ text, etag }: { text: string; etag: string }): Promise<boolean> {
  performance.mark("edit");
  return saved(() => save({ text }, "PUT", "text", { text }, etag));
}

export function undo(): Promise<boolean> {
  return saved(() => save([], "POST", "undo", {}));
}

export function redo(): Promise<boolean> {
  return saved(() => save([], "POST", "redo", {}));
}

/** Leaves the file as it is on disk and shows it. */
export function takeTheirs(): Promise<boolean> {
  if (!Array.isArray(conflict.value?.mine)) textDraft.value = null;
  conflict.value = null;
  return inTurn(reload);
}

/** Puts what was to be saved into the file as it is on disk now. */
export async function putMine(): Promise<void> {
  const met = conflict.value!;
  const { mine, theirs } = met;
  conflict.value = null;
  const isSaved = await (Array.isArray(mine)
    ? saved(() => save(mine, "PATCH", "", { edits: mine }, theirs.etag))
    : write({ text: mine.text, etag: theirs.etag }));
  if (!isSaved) conflict.value = met;
  else if (!Array.isArray(mine) && !conflict.value) textDraft.value = null;
}

/** The value at a key of the file, as typed. */
export function written(path: string): Written | undefined {
  return at(answer.value?.written, path) as Written | undefined;
}

/** Why work was left: the text that it was of is no longer the newest. */
const CHANGED = "changed";

/** Stops the long work that runs; the draft figures stay. */
export function stop(): void {
  leave();
}

function leave(why?: typeof CHANGED): void {
  following.abort(why);
  following = new AbortController();
  progress.value = null;
}

/** Works out the whole check of the text as it is now. */
export function follow(): void {
  leave(CHANGED);
  progress.value = { done: 0, total: 0, says: "" };
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
  const { signal } = following;
  const units = system.value;
  try {
    return await work<T>(name, what, units, (now) => !signal.aborted && (progress.value = now), signal);
  } catch (error) {
    if (error instanceof Refusal && error.status === 501) return "unsupported";
    // The server gives work up for a change before this page has the change's answer.
    const isDropped = signal.reason === CHANGED || (error instanceof Cancelled && !signal.aborted);
    if (isDropped) trouble.value = words.dropped;
    else if (!(error instanceof Cancelled)) report(error);
    return null;
  } finally {
    if (!signal.aborted) {
      progress.value = null;
      if (system.value !== units) void reword();
    }
  }
}

/** Changes that are on their way to the file. */
export const saving = signal(0);
/** Fields whose text could not be saved. */
export const unsaved = signal(0);

function saved(act: () => Promise<void>): Promise<boolean> {
  saving.value += 1;
  return inTurn(act).finally(() => (saving.value -= 1));
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

async function save(mine: Conflict["mine"], method: string, what: string, body: unknown, on?: string): Promise<void> {
  const { name, etag, text } = answer.value!;
  try {
    taken(await ask<JobAnswer>(jobPath(name, what), { method, body, etag: on ?? etag }));
  } catch (error) {
    if (!(error instanceof Refusal) || error.status !== 412) throw error;
    const earlier = conflict.value?.mine;
    // What was queued behind a change that met another's is put with it.
    const all = Array.isArray(earlier) && Array.isArray(mine) ? [...earlier, ...mine] : mine;
    conflict.value = { mine: all, before: text, theirs: { text: error.body.text ?? "", etag: error.body.etag ?? "" } };
  }
}

/** Takes the file as it is now; what goes on for the same text goes on. */
async function reload(): Promise<void> {
  const wasUnread = isUnread;
  isUnread = true;
  const now = await ask<JobAnswer>(jobPath(answer.value!.name));
  isUnread = false;
  if (now.etag !== answer.value!.etag) taken(now);
  // What else is said goes on being true.
  else if (wasUnread || trouble.value === "") trouble.value = null;
}

function taken(now: JobAnswer): void {
  batch(() => {
    trouble.value = null;
    remedies.value = null;
    answer.value = now;
  });
  if (now.job) followJob(now.job.units, at(now.written, "job.fraction"));
  if (now.faults.length === 0) follow();
  else leave(CHANGED);
}

async function figures(signal: AbortSignal): Promise<void> {
  const { name, etag } = answer.value!;
  const units = system.value;
  try {
    // Figures first, since they are read first; the pictures follow in the same breath.
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
    if (loadCase.value !== null && !loadCasesOf(whole).includes(loadCase.value)) loadCase.value = null;
    if (system.value !== units) await reword();
    await drawLoad(name, signal);
  } catch (error) {
    if (signal.aborted) return;
    progress.value = null;
    const faults = error instanceof Refusal ? error.body.faults : undefined;
    // What reads but cannot be built is a fault of the job like any other; its sizes can still be dragged.
    if (faults?.length && etag === answer.value?.etag) answer.value = { ...answer.value, faults };
    else report(error);
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

/** The model under the load that is chosen once it has come. */
async function drawLoad(name: string, signal: AbortSignal): Promise<void> {
  for (;;) {
    const path = modelPath(name);
    const shapes = await ask<Model>(path, { signal });
    if (path !== modelPath(name)) continue;
    if (shapes.etag === answer.value?.etag) model.value = shapes;
    return;
  }
}

/** Shows the bulge under a load; null for the lasting one that asks most. */
export async function showLoad(load: string | null): Promise<void> {
  loadCase.value = load;
  if (!model.value?.bulge) return;
  try {
    await drawLoad(answer.value!.name, following.signal);
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
    // The server keeps the whole plans of a few jobs alone.
    if (said.draft && !before.draft) return follow();
    batch(() => {
      // A load goes by its name, which has figures in it: the same load is in the same place.
      const place = loadCasesOf(before).indexOf(loadCase.peek() ?? "");
      loadCase.value = loadCasesOf(said)[place] ?? null;
      plan.value = said;
    });
    if (model.peek()?.bulge) await drawLoad(answer.peek()!.name, following.signal);
  } catch (error) {
    report(error);
  }
}

/**
 * The whole check. Where another window's asking took the place of this one's, or the server was started
 * anew, asks again later and later: what was worked out for one window is kept for all.
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
