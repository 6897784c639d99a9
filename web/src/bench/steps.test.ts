// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { FakeServer } from "../testing/server";
import { aFinding, aPanel, aPlan, aSeam, aStep } from "../testing/samples";
import { contents } from "./contents";

let server: FakeServer;
let steps: typeof import("./steps");
let close = () => {};

async function load(): Promise<void> {
  close();
  vi.resetModules();
  steps = await import("./steps");
  close = steps.openJob("box");
}

const settle = () => vi.advanceTimersByTimeAsync(0);
const nextPoll = () => vi.advanceTimersByTimeAsync(5000);
const ids = () => steps.job.value?.bench.steps.map(({ id }) => id);

beforeEach(async () => {
  vi.useFakeTimers();
  localStorage.clear();
  server = new FakeServer();
  server.steps = [aStep("s1"), aStep("s2")];
  vi.stubGlobal("fetch", server.fetch);
  await load();
});

afterEach(() => {
  close();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test("steps come from the server, with the number of findings that stop the build", async () => {
  expect(steps.job.value).toBeNull();
  expect(steps.isAsked.value).toBe(false);
  server.plan = aPlan({ findings: [aFinding("stop"), aFinding("mend"), aFinding("stop")] });
  server.changeElsewhere({});
  await nextPoll();
  expect(ids()).toEqual(["s1", "s2"]);
  expect(steps.job.value?.stops).toBe(2);
});

test("without the server the stored steps are shown at once", async () => {
  await settle();
  server.isDown = true;
  await load();
  expect(ids()).toEqual(["s1", "s2"]);
  await settle();
  expect(ids()).toEqual(["s1", "s2"]);
  expect(steps.refusal.value).toBeNull();
});

test("where nobody has the steps it says so", async () => {
  close();
  await settle();
  localStorage.clear();
  server.isDown = true;
  await load();
  await settle();
  expect(steps.job.value).toBeNull();
  expect(steps.isAsked.value).toBe(true);
});

test("a refusal is told beside the stored steps, and goes when the server gives them again", async () => {
  await settle();
  server.replies.set("GET jobs/box/bench", { status: 422, body: { faults: [], error: { says: "This is not TOML." } } });
  await nextPoll();
  expect(steps.refusal.value?.message).toBe("This is not TOML.");
  expect(ids()).toEqual(["s1", "s2"]);
  server.replies.clear();
  await nextPoll();
  expect(steps.refusal.value).toBeNull();
});

test("a design that was changed is noticed; a change of no step is not", async () => {
  await settle();
  server.changeElsewhere({});
  await nextPoll();
  expect(steps.isChanged.value).toBe(false);
  server.steps = [aStep("s1", { how: "on packers" }), aStep("s2")];
  server.changeElsewhere({});
  await nextPoll();
  expect(steps.isChanged.value).toBe(true);
});

test("only what changed is read again: a poll asks for the steps and no plan", async () => {
  await settle();
  const plans = server.asked("GET", "jobs/box/plan").length;
  await nextPoll();
  expect(server.asked("GET", "jobs/box/plan")).toHaveLength(plans);
});

test("answers of two states of the job are not mixed", async () => {
  await settle();
  const letThrough = server.hold("GET", "jobs/box/plan");
  server.steps = [aStep("s3")];
  server.changeElsewhere({});
  await nextPoll();
  // The plan is of the state before; the steps are of this one.
  server.steps = [aStep("s4")];
  server.plan = aPlan({ findings: [aFinding("stop")] });
  server.changeElsewhere({});
  letThrough();
  await settle();
  expect(ids()).toEqual(["s4"]);
  expect(steps.job.value?.stops).toBe(1);
});

const PLAN = aPlan({ panels: [aPanel("P1", "floor"), aPanel("P2", "rear"), aPanel("P3", "lid")], seams: [aSeam("S1", ["P1", "P2"])] });

test("a step's hash changes with its panels and no others", () => {
  const both = [aStep("rear", { panels: ["P2"] }), aStep("lid", { panels: ["P3"] })];
  const before = contents(both, PLAN);
  const thicker = PLAN.panels.map((panel) => (panel.mark === "P3" ? { ...panel, thickness_m: 0.01 } : panel));
  const after = contents(both, { ...PLAN, panels: thicker });
  expect(after.rear).toBe(before.rear);
  expect(after.lid).not.toBe(before.lid);
});

test("a step's hash changes with a panel that its seam joins", () => {
  const step = [aStep("weld", { seams: ["S1"] })];
  const moved = PLAN.panels.map((panel) => (panel.mark === "P2" ? { ...panel, cut: { ...panel.cut, size_m: [0.5, 0.41] as [number, number] } } : panel));
  expect(contents(step, { ...PLAN, panels: moved })).not.toEqual(contents(step, PLAN));
});

test("a tank that is moved as a whole, and rounding, change no step", () => {
  const step = [aStep("rear", { panels: ["P2"] })];
  const by = (metres: number) => PLAN.panels.map((panel) => ({ ...panel, frame: { ...panel.frame, origin_m: [metres, 0, 0] as [number, number, number] } }));
  expect(contents(step, { ...PLAN, panels: by(0.5) })).toEqual(contents(step, PLAN));
  const rounded = PLAN.panels.map((panel) => ({ ...panel, thickness_m: panel.thickness_m + 1e-9 }));
  expect(contents(step, { ...PLAN, panels: rounded })).toEqual(contents(step, PLAN));
});

test("a test strip's hash changes with the thicknesses alone", () => {
  const step = [aStep("strips", { work: "test strip" })];
  const longer = PLAN.panels.map((panel) => ({ ...panel, cut: { ...panel.cut, size_m: [0.9, 0.9] as [number, number] } }));
  expect(contents(step, { ...PLAN, panels: longer })).toEqual(contents(step, PLAN));
  const thicker = PLAN.panels.map((panel) => ({ ...panel, thickness_m: 0.01 }));
  expect(contents(step, { ...PLAN, panels: thicker })).not.toEqual(contents(step, PLAN));
});
