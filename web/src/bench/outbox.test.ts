// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Entry } from "../api/types";
import { fillDevice } from "../testing/device";
import { FakeServer } from "../testing/server";

const START_MS = 1_700_000_000_000;
let server: FakeServer;
let outbox: typeof import("./outbox");
let close = () => {};

/** The page as it is loaded, with what the device has stored. */
async function load(): Promise<void> {
  close();
  vi.resetModules();
  outbox = await import("./outbox");
  close = outbox.openOutbox("box");
  await settle();
}

const settle = () => vi.advanceTimersByTimeAsync(0);
const nextPoll = () => vi.advanceTimersByTimeAsync(5000);
const entry = (id: string, more: Partial<Entry> = {}): Entry => ({ client_id: id, step: "s1", kind: "tick", value: "hash", made_s: START_MS / 1000, ...more });
const values = (entries: readonly Entry[]) => entries.map(({ value }) => value);
const sends = () => server.asked("POST", "jobs/box/build/entries").map(({ body }) => (body as Entry[]).length);

beforeEach(async () => {
  vi.useFakeTimers({ now: START_MS });
  localStorage.clear();
  server = new FakeServer();
  vi.stubGlobal("fetch", server.fetch);
  await load();
});

afterEach(() => {
  close();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

test("an entry is sent, and waits no more once the server has it", async () => {
  outbox.add("s1", "note", "Gun ran cool");
  expect(values(outbox.waiting.value)).toEqual(["Gun ran cool"]);
  await settle();
  expect(outbox.waiting.value).toEqual([]);
  expect(values(server.entries)).toEqual(["Gun ran cool"]);
  expect(values(outbox.notes.value)).toEqual(["Gun ran cool"]);
});

test("without the server an entry outlives a reload and is sent later, once", async () => {
  server.isDown = true;
  outbox.add("s1", "tick", "hash");
  await load();
  expect(outbox.waiting.value).toHaveLength(1);
  expect(outbox.ticked("s1", "hash")).toBe("yes");
  server.isDown = false;
  await nextPoll();
  await nextPoll();
  expect(outbox.waiting.value).toEqual([]);
  expect(server.entries).toHaveLength(1);
});

test("an answer that is lost loses nothing and doubles nothing", async () => {
  server.isDown = true;
  outbox.add("s1", "note", "twice");
  await settle();
  // The server has it; only its answer did not arrive.
  server.entries.push(...outbox.waiting.value);
  server.isDown = false;
  server.replies.set("POST jobs/box/build/entries", { status: 503, body: {} });
  await nextPoll();
  expect(values(outbox.notes.value)).toEqual(["twice"]);
  server.replies.clear();
  await nextPoll();
  expect(values(server.entries)).toEqual(["twice"]);
  expect(values(outbox.notes.value)).toEqual(["twice"]);
});

test("a tick counts for the step that it was made for alone", async () => {
  outbox.add("s1", "tick", "hash");
  await settle();
  expect(outbox.ticked("s1", "hash")).toBe("yes");
  expect(outbox.ticked("s1", "another")).toBe("before");
  expect(outbox.ticked("s2", "hash")).toBe("no");
  outbox.add("s1", "untick", "hash");
  expect(outbox.ticked("s1", "hash")).toBe("no");
});

test("the later of two entries decides, whichever comes first and whatever the clocks say", async () => {
  // Another device, an hour ahead, has ticked it.
  server.entries = [entry("ahead", { made_s: START_MS / 1000 + 3600 })];
  await nextPoll();
  outbox.add("s1", "untick", "hash");
  expect(outbox.ticked("s1", "hash")).toBe("no");
  await settle();
  server.entries.push(entry("late", { made_s: START_MS / 1000 - 60 }));
  await nextPoll();
  expect(outbox.ticked("s1", "hash")).toBe("no");
});

test("entries of another device are shown, ticks not among the notes", async () => {
  server.entries = [entry("a"), entry("b", { kind: "reading", value: "12" })];
  await nextPoll();
  expect(values(outbox.notes.value)).toEqual(["12"]);
});

test("one entry that the server cannot take holds up no other", async () => {
  const take = server.fetch;
  vi.stubGlobal("fetch", (url: string, init: RequestInit = {}) => {
    const isBad = typeof init.body === "string" && init.body.includes("bad");
    return isBad ? Promise.resolve(new Response('{"error":{"says":"Too long."}}', { status: 422 })) : take(url, init);
  });
  server.isDown = true;
  for (const value of ["one", "bad", "two", "three"]) outbox.add("s1", "note", value);
  await settle();
  server.isDown = false;
  await nextPoll();
  expect(values(server.entries).sort()).toEqual(["one", "three", "two"]);
  expect(values(outbox.waiting.value)).toEqual(["bad"]);
  expect(outbox.refused.value?.message).toBe("Too long.");
});

test("a refusal that is not of the entries is not tried by halves", async () => {
  server.replies.set("POST jobs/box/build/entries", { status: 404, body: { error: { says: "No such job." } } });
  server.isDown = true;
  for (const value of ["one", "two"]) outbox.add("s1", "note", value);
  await settle();
  server.isDown = false;
  const before = sends().length;
  await nextPoll();
  expect(sends().slice(before)).toEqual([2]);
  expect(outbox.refused.value?.message).toBe("No such job.");
});

test("many entries go in several requests", async () => {
  server.isDown = true;
  for (let count = 0; count < 450; count++) outbox.add("s1", "note", String(count));
  await settle();
  server.isDown = false;
  const before = sends().length;
  await nextPoll();
  expect(sends().slice(before)).toEqual([200, 200, 50]);
  expect(server.entries).toHaveLength(450);
});

test("what a device has no space for is still sent, and said until it is", async () => {
  fillDevice();
  server.isDown = true;
  outbox.add("s1", "note", "kept in memory");
  await settle();
  expect(outbox.unstored.value).toHaveLength(1);
  server.isDown = false;
  await nextPoll();
  expect(values(server.entries)).toEqual(["kept in memory"]);
  expect(outbox.unstored.value).toEqual([]);
});

test("an entry that another tab stores is seen and sent here too", async () => {
  localStorage.setItem("brimful.waiting/box/theirs", JSON.stringify(entry("theirs", { kind: "note", value: "theirs" })));
  dispatchEvent(new Event("storage"));
  expect(values(outbox.waiting.value)).toEqual(["theirs"]);
  await nextPoll();
  expect(values(server.entries)).toEqual(["theirs"]);
  expect(localStorage.getItem("brimful.waiting/box/theirs")).toBeNull();
});
