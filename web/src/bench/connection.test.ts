// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { askServer, poll, reached, type Poll } from "./connection";

let polling: Poll | undefined;

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  polling?.stop();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const answers = (reply: () => Promise<Response>) => vi.stubGlobal("fetch", reply);

test("only an answer tells that the server is reached, and a refusal is one", async () => {
  answers(() => Promise.reject(new TypeError("Failed to fetch")));
  await expect(askServer("jobs")).rejects.toThrow(TypeError);
  expect(reached.value).toBe(false);
  answers(() => Promise.resolve(new Response('{"error":{"says":"No such job."}}', { status: 404 })));
  await expect(askServer("jobs/box")).rejects.toThrow("No such job.");
  expect(reached.value).toBe(true);
});

test("it is done at once and again and again", async () => {
  const act = vi.fn(() => Promise.resolve());
  polling = poll(act);
  expect(act).toHaveBeenCalledTimes(1);
  await vi.advanceTimersByTimeAsync(5000);
  expect(act).toHaveBeenCalledTimes(2);
});

test("it is never done twice at once; what is asked for in that time is done once afterwards", async () => {
  let finish = () => {};
  const act = vi.fn(() => new Promise<void>((resolve) => (finish = resolve)));
  polling = poll(act);
  polling.now();
  polling.now();
  await vi.advanceTimersByTimeAsync(20_000);
  expect(act).toHaveBeenCalledTimes(1);
  finish();
  await vi.advanceTimersByTimeAsync(0);
  expect(act).toHaveBeenCalledTimes(2);
  finish();
  await vi.advanceTimersByTimeAsync(0);
  expect(act).toHaveBeenCalledTimes(2);
});

test("the network that comes back and a page that is shown ask at once", async () => {
  const act = vi.fn(() => Promise.resolve());
  polling = poll(act);
  await vi.advanceTimersByTimeAsync(0);
  dispatchEvent(new Event("online"));
  await vi.advanceTimersByTimeAsync(0);
  document.dispatchEvent(new Event("visibilitychange"));
  await vi.advanceTimersByTimeAsync(0);
  expect(act).toHaveBeenCalledTimes(3);
});

test("once stopped it is not done any more", async () => {
  const act = vi.fn(() => Promise.resolve());
  polling = poll(act);
  polling.stop();
  await vi.advanceTimersByTimeAsync(30_000);
  dispatchEvent(new Event("online"));
  await vi.advanceTimersByTimeAsync(0);
  expect(act).toHaveBeenCalledTimes(1);
});
