// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { FakeEvents, FakeServer } from "../testing/server";
import { aBuild, aBuildRun, aBuildStep, aModel } from "../testing/samples";
import { close, model, open, plan } from "./job";
import { build, checkedEtag, dropOrder, isCurrent, isPlayable, loadBuild, misfit, posesOf, tried, tryOrder, writeOrder } from "./order";

let server: FakeServer;

beforeEach(async () => {
  server = new FakeServer();
  vi.stubGlobal("fetch", server.fetch);
  vi.stubGlobal("EventSource", FakeEvents);
  server.replies.set("GET jobs/box/order", { status: 200, body: aBuild([aBuildStep("set")]) });
  await open("box");
  await vi.waitFor(() => expect(plan.value).not.toBeNull());
});

afterEach(() => {
  close();
  build.value = tried.value = misfit.value = null;
  vi.unstubAllGlobals();
});

test("the build can be asked for once the whole tank has been checked", async () => {
  expect(checkedEtag.value).toBeNull();
  await vi.waitFor(() => FakeEvents.open("work/"));
  FakeEvents.open("work/").send("done");
  await vi.waitFor(() => expect(checkedEtag.value).toBe("v1"));
  await loadBuild();
  expect(isCurrent.value).toBe(true);
  server.changeElsewhere({});
  FakeEvents.open("jobs/box/events").send("changed", { etag: "v2", by: null });
  await vi.waitFor(() => expect(isCurrent.value).toBe(false));
});

test("a build of panels that the picture has not is not played", async () => {
  await loadBuild();
  model.value = aModel();
  expect(isPlayable.value).toBe(false);
  model.value = aModel({ panels: [{ mark: "P1" }, { mark: "P2" }] });
  expect(isPlayable.value).toBe(true);
});

test("an order that is tried is asked for by its marks, and the last one counts", async () => {
  await loadBuild();
  const answerFirst = server.hold("GET", "jobs/box/order");
  const first = tryOrder(["P2", "P1"]);
  answerFirst();
  const second = tryOrder(["P1", "P2"]);
  await Promise.all([first, second]);
  expect(server.asked("GET", "jobs/box/order").map(({ path }) => /panels=(.*)/.exec(path)?.[1])).toEqual([undefined, "P2,P1", "P1,P2"]);
  expect(tried.value).toEqual(["P1", "P2"]);
});

test("an order that cannot be followed is told, and the build before it stays", async () => {
  await loadBuild();
  const before = build.value;
  server.replies.set("GET jobs/box/order", { status: 422, body: { error: { says: "It leaves out lid.", remedy: "Put it in." } } });
  await tryOrder(["P1"]);
  expect(misfit.value).toBe("It leaves out lid. Put it in.");
  expect(build.value).toBe(before);
  await loadBuild();
  expect([build.value, tried.value]).toEqual([null, null]);
});

test("the order is written into the job by names, and taken out again", async () => {
  await loadBuild();
  await writeOrder();
  expect(server.written["weld.order"]).toEqual(["floor", "rear"]);
  await dropOrder();
  expect(server.asked("PATCH", "jobs/box").at(-1)?.body).toEqual({ edits: [{ path: "weld", remove: true }] });
});

test("the poses of a run are asked for once, and again after a failure", async () => {
  await loadBuild();
  const run = aBuildRun([]);
  server.replies.set("GET jobs/box/order/poses", { status: 500, body: {} });
  expect(await posesOf(run, ["P1"])).toEqual([]);
  server.replies.set("GET jobs/box/order/poses", { status: 200, body: { etag: "v1", poses: [null] } });
  expect(await posesOf(run, ["P1"])).toEqual([null]);
  expect(await posesOf(run, ["P1"])).toEqual([null]);
  expect(server.asked("GET", "jobs/box/order/poses")).toHaveLength(2);
});
