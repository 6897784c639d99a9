// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { FakeEvents, FakeServer } from "../testing/server";
import type { Fault } from "../api/types";
import { aLoadCase, aModel, aPlan } from "../testing/samples";

let server: FakeServer;
let job: typeof import("./job");
let client: typeof import("../api/client");
let units: typeof import("./units");

beforeEach(async () => {
  vi.resetModules();
  localStorage.clear();
  server = new FakeServer();
  FakeEvents.all = [];
  vi.stubGlobal("fetch", server.fetch);
  vi.stubGlobal("EventSource", FakeEvents);
  [job, client, units] = await Promise.all([import("./job"), import("../api/client"), import("./units")]);
  await job.open("box");
});

afterEach(() => {
  job.close();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** Waits until the whole check runs; `finish` ends it. */
async function checking(): Promise<FakeEvents> {
  return vi.waitFor(() => FakeEvents.open("work/"));
}

async function finish(): Promise<void> {
  (await checking()).send("done");
  await vi.waitFor(() => expect(job.progress.value).toBeNull());
}

const set = (path: string, value: number) => ({ path, set: value });

test("a job that is opened shows the draft, then the whole check", async () => {
  const work = await checking();
  expect(job.plan.value?.draft).toBe(true);
  work.send("progress", { done: 1, total: 4, says: "loads" });
  expect(job.progress.value).toEqual({ done: 1, total: 4, says: "loads" });
  await finish();
  expect(job.plan.value?.draft).toBe(false);
  expect(job.model.value?.etag).toBe("v1");
});

test("the verdict of one text is never shown for another", async () => {
  await finish();
  expect(job.verdict.value).toBe("clear");
  const letThrough = server.hold("GET", "jobs/box/plan");
  await job.change(set("a", 1));
  expect(job.verdict.value).toBe("old");
  job.cancel();
  expect(job.progress.value).toBeNull();
  expect(job.plan.value?.etag).toBe("v1");
  expect(job.verdict.value).toBe("old");
  letThrough();
  job.checkWhole();
  await finish();
  expect(job.verdict.value).toBe("clear");
});

test("what stops the build, a draft and a fault are verdicts of their own", async () => {
  server.plan = aPlan({ causes: [{ grade: "stop", findings: [], remedy: null }] });
  expect(job.verdict.value).toBe("draft");
  await job.change(set("a", 1));
  await finish();
  expect(job.verdict.value).toBe("stopped");
  server.faults = [{ key: "a" } as Fault];
  await job.change(set("a", 2));
  expect(job.verdict.value).toBe("faulty");
});

test("edits are sent one after another, each with the etag of the answer before it", async () => {
  const letThrough = server.hold("PATCH", "jobs/box");
  const both = [job.change(set("a", 1)), job.change(set("b", 2))];
  expect(job.saving.value).toBe(2);
  await vi.waitFor(() => expect(server.asked("PATCH", "jobs/box")).toHaveLength(1));
  letThrough();
  expect(await Promise.all(both)).toEqual([true, true]);
  expect(server.asked("PATCH", "jobs/box").map(({ etag }) => etag)).toEqual(["v1", "v2"]);
  expect(job.saving.value).toBe(0);
  expect(job.answer.value?.etag).toBe("v3");
  expect(job.written("b")).toBe(2);
});

test("edits that go on from the file are made when their turn comes, and none is sent where there are none", async () => {
  const more = () => job.changeFrom(() => [set("a", Number(job.written("a") ?? 0) + 10)]);
  await Promise.all([more(), more(), job.changeFrom(() => [])]);
  expect(job.written("a")).toBe(20);
  expect(server.asked("PATCH", "jobs/box")).toHaveLength(2);
});

test("where the server is not reached an edit is not saved, it is said, and the next one goes through", async () => {
  server.isDown = true;
  expect(await job.change(set("a", 1))).toBe(false);
  expect(job.problem.value).toBe("");
  server.isDown = false;
  expect(await job.change(set("a", 2))).toBe(true);
  expect(job.problem.value).toBeNull();
  expect(server.written.a).toBe(2);
});

test("a refusal is said in the server's words", async () => {
  server.replies.set("PATCH jobs/box", { status: 422, body: { error: { says: "No such key.", remedy: "Look at the list." } } });
  expect(await job.change(set("a", 1))).toBe(false);
  expect(job.problem.value).toBe("No such key. Look at the list.");
});

test("an edit of a file that was changed since then overwrites nothing, and holds what was queued behind it", async () => {
  server.changeElsewhere({ a: 5 });
  await Promise.all([job.change(set("a", 1)), job.change(set("b", 2))]);
  expect(server.written).toEqual({ a: 5 });
  expect(job.conflict.value).toEqual({ mine: [set("a", 1), set("b", 2)], before: "text v1", theirs: { text: "text v2", etag: "v2" } });

  await job.applyMine();
  expect(job.conflict.value).toBeNull();
  expect(server.written).toEqual({ a: 1, b: 2 });
  expect(server.asked("PATCH", "jobs/box").at(-1)?.etag).toBe("v2");
});

test("the file as it is now may be kept, and is then shown", async () => {
  server.changeElsewhere({ a: 5 });
  await job.change(set("a", 1));
  await job.keepTheirs();
  expect(job.conflict.value).toBeNull();
  expect(job.written("a")).toBe(5);
});

test("a choice that cannot be carried out leaves the conflict open", async () => {
  server.changeElsewhere({ a: 5 });
  await job.change(set("a", 1));
  server.isDown = true;
  await job.applyMine();
  expect(job.conflict.value?.mine).toEqual([set("a", 1)]);
});

test("a text is saved on the state that it was begun on, and kept until it is in the file", async () => {
  const draft = { text: "[job]", etag: "v1" };
  job.textDraft.value = draft;
  await job.change(set("a", 1));
  await job.saveText(draft);
  expect(server.asked("PUT", "jobs/box/text").map(({ etag }) => etag)).toEqual(["v1"]);
  expect(job.conflict.value?.mine).toEqual({ text: "[job]" });
  await job.applyMine();
  expect(server.asked("PUT", "jobs/box/text").at(-1)).toMatchObject({ etag: "v2", body: { text: "[job]" } });
  expect(job.textDraft.value).toBeNull();
});

test("a newer edit cancels the check of an older one", async () => {
  await checking();
  await job.change(set("a", 1));
  expect(server.asked("DELETE", "work/1")).toHaveLength(1);
  await finish();
  expect(job.plan.value).toMatchObject({ etag: "v2", draft: false });
});

test("a draft of an older text that comes late is not shown", async () => {
  await finish();
  const letThrough = server.hold("GET", "jobs/box/plan");
  await job.change(set("a", 1));
  await vi.waitFor(() => expect(server.asked("GET", "jobs/box/plan").at(-1)?.path).toContain("quick"));
  await job.change(set("a", 2));
  letThrough();
  await checking();
  expect(job.plan.value?.etag).toBe("v3");
});

test("a check that is cancelled leaves the draft, and may be asked for again", async () => {
  await checking();
  job.cancel();
  expect(job.progress.value).toBeNull();
  expect(job.plan.value?.draft).toBe(true);
  expect(job.problem.value).toBeNull();
  job.checkWhole();
  await vi.waitFor(() => expect(server.asked("POST", "jobs/box/work")).toHaveLength(2));
  await finish();
  expect(job.plan.value?.draft).toBe(false);
});

test("a check that another window's took the place of is asked for again", async () => {
  const work = await checking();
  vi.useFakeTimers();
  work.send("cancelled");
  await vi.advanceTimersByTimeAsync(3900);
  expect(server.asked("POST", "jobs/box/work")).toHaveLength(1);
  await vi.advanceTimersByTimeAsync(200);
  expect(server.asked("POST", "jobs/box/work")).toHaveLength(2);
});

test("with faults in the file the last good plan stays and nothing is worked out", async () => {
  await finish();
  server.faults = [{ line: 1, column: 1, key: "a", says: "Wrong.", allowed: [], nearest: null, remedy: "" }];
  await job.change(set("a", 1));
  expect(job.stale.value).toBe(true);
  expect(job.plan.value?.etag).toBe("v1");
  expect(job.progress.value).toBeNull();
  expect(server.asked("POST", "jobs/box/work")).toHaveLength(1);
});

test("a fault in the file cancels the check that runs", async () => {
  await checking();
  server.faults = [{ line: 1, column: 1, key: "a", says: "Wrong.", allowed: [], nearest: null, remedy: "" }];
  await job.change(set("a", 1));
  expect(server.asked("DELETE", "work/1")).toHaveLength(1);
  expect(job.progress.value).toBeNull();
});

test("what reads but cannot be built is a fault like any other", async () => {
  await finish();
  const fault = { line: null, column: null, key: "body", says: "No room is left inside.", allowed: [], nearest: null, remedy: "" };
  server.replies.set("GET jobs/box/plan", { status: 422, body: { faults: [fault] } });
  await job.change(set("a", 1));
  await vi.waitFor(() => expect(job.answer.value?.faults).toEqual([fault]));
  expect(job.problem.value).toBeNull();
  expect(job.progress.value).toBeNull();
});

test("a change of another window is shown; one's own is not read twice", async () => {
  const events = FakeEvents.open("events?window=");
  const reads = () => server.asked("GET", "jobs/box").length;
  server.changeElsewhere({ a: 5 });
  events.send("changed", { etag: "v2", by: client.windowId });
  events.send("changed", { etag: "v1", by: null });
  expect(reads()).toBe(1);
  events.send("changed", { etag: "v2", by: "other" });
  await vi.waitFor(() => expect(job.written("a")).toBe(5));
  expect(reads()).toBe(2);
});

test("a server that goes away is said once, and where it comes back the check goes on", async () => {
  const events = FakeEvents.open("events?window=");
  job.cancel();
  server.isDown = true;
  events.onerror?.();
  events.onerror?.();
  await vi.waitFor(() => expect(job.problem.value).toBe(""));
  expect(server.asked("GET", "jobs/box")).toHaveLength(2);
  server.isDown = false;
  events.onopen?.();
  await finish();
  expect(job.problem.value).toBeNull();
  expect(job.plan.value?.draft).toBe(false);
});

test("a window out of sight gives its connection back, and reads the file when it is seen", async () => {
  const see = (state: DocumentVisibilityState) => {
    Object.defineProperty(document, "visibilityState", { value: state, configurable: true });
    document.dispatchEvent(new Event("visibilitychange"));
  };
  see("hidden");
  expect(() => FakeEvents.open("events?window=")).toThrow();
  server.changeElsewhere({ a: 5 });
  see("visible");
  FakeEvents.open("events?window=");
  await vi.waitFor(() => expect(job.written("a")).toBe(5));
});

test("long work that an edit drops is said to be dropped", async () => {
  await finish();
  const found = job.runWork("box", "fit");
  await checking();
  await job.change(set("a", 1));
  expect(await found).toBeNull();
  // The answer of the edit clears what was said before it; the drop comes after it.
  expect(job.problem.value).not.toBeNull();
});

test("work that this version does not know is told apart from work that failed", async () => {
  await finish();
  server.replies.set("POST jobs/box/work", { status: 501, body: { error: { says: "Not yet." } } });
  await job.askRemedies();
  expect(job.remedies.value).toBe("unsupported");
});

test("units that are changed ask for the sentences again, and the chosen load stays the same one", async () => {
  const named = (...names: string[]) => ({ spans: [], assumptions: [], sources: [], whole: { load_cases: names.map(aLoadCase) } });
  server.plan = aPlan({ strength: named("full at rest", "braking at 100 mm") });
  server.model = aModel({ bulge: { load_case: { id: "case 0", name: "full at rest" }, load_cases: [], panels: [] } });
  await finish();
  await job.showLoad("case 1");
  expect(server.asked("GET", "jobs/box/model").at(-1)?.path).toContain("bulge=case%201");
  server.plan = aPlan({ strength: named("full at rest", "braking at 4 in") });
  units.showIn("inch");
  await vi.waitFor(() => expect(server.asked("GET", "jobs/box/plan").at(-1)?.path).toContain("units=inch"));
  expect(job.loadCase.value).toBe("case 1");
});

test("a job that is closed leaves nothing behind", async () => {
  await checking();
  job.close();
  expect([job.answer.value, job.plan.value, job.model.value, job.progress.value]).toEqual([null, null, null, null]);
  expect(FakeEvents.all.every(({ readyState }) => readyState === FakeEvents.CLOSED)).toBe(true);
});
