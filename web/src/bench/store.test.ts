// @vitest-environment happy-dom
import { afterEach, expect, test, vi } from "vitest";
import { fillDevice } from "../testing/device";
import { load, store } from "./store";

afterEach(() => {
  vi.unstubAllGlobals();
  localStorage.clear();
});

test("what is stored is loaded again, and nothing is null", () => {
  expect(store("here", { a: [1, null] })).toBe(true);
  expect(load("here")).toEqual({ a: [1, null] });
  expect(load("elsewhere")).toBeNull();
});

test("a device without space says so and keeps what it had", () => {
  store("here", 1);
  fillDevice();
  expect(store("here", 2)).toBe(false);
  expect(load("here")).toBe(1);
});
