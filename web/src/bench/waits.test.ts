// @vitest-environment happy-dom
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { clock, leftOf, openWaits, setWait, waits } from "./waits";

let close = () => {};

beforeEach(() => {
  vi.useFakeTimers({ now: 1_000_000 });
  localStorage.clear();
  close = openWaits("box");
});

afterEach(() => {
  close();
  vi.useRealTimers();
});

const left = (step: string) => leftOf(waits.value[step]!);

test("a wait counts down by the clock and ends at nothing", () => {
  setWait("cool", { ends: Date.now() + 2000, left: 2000 });
  vi.advanceTimersByTime(1500);
  expect(left("cool")).toBe(500);
  vi.advanceTimersByTime(5000);
  expect(left("cool")).toBe(0);
});

test("a wait that is paused keeps what is left", () => {
  setWait("cool", { ends: null, left: 700 });
  vi.advanceTimersByTime(5000);
  expect(left("cool")).toBe(700);
});

test("the phone vibrates once when a wait is over", () => {
  const vibrate = vi.fn();
  Object.defineProperty(navigator, "vibrate", { value: vibrate, configurable: true });
  setWait("cool", { ends: Date.now() + 1000, left: 1000 });
  vi.advanceTimersByTime(900);
  expect(vibrate).not.toHaveBeenCalled();
  vi.advanceTimersByTime(5000);
  expect(vibrate).toHaveBeenCalledTimes(1);
});

test("a wait outlives a reload, and each job has its own", () => {
  setWait("cool", { ends: Date.now() + 2000, left: 2000 });
  close();
  vi.setSystemTime(Date.now() + 1500);
  close = openWaits("other");
  expect(waits.value).toEqual({});
  close();
  close = openWaits("box");
  expect(waits.value.cool?.ends).toBe(1_002_000);
});

test("a wait that another tab sets is kept beside this one's", () => {
  localStorage.setItem("brimful.waits/box", JSON.stringify({ theirs: { ends: null, left: 5 } }));
  setWait("mine", { ends: null, left: 6 });
  expect(Object.keys(waits.value)).toEqual(["theirs", "mine"]);
});

test("time is shown in minutes and seconds, with hours where there are any", () => {
  expect([clock(0), clock(1), clock(61_000), clock(3_599_001), clock(3_661_000)]).toEqual(["0:00", "0:01", "1:01", "1:00:00", "1:01:01"]);
});
