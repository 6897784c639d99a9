import { expect, test } from "vitest";
import { aBuild, aBuildPlace, aBuildRun, aBuildStep } from "../testing/samples";
import { framesOf, laid, moved, stretches, timeOf } from "./play";

const places = [
  aBuildPlace({ stretch_m: 0.1 }),
  aBuildPlace({ stretch_m: 0.1, is_seen: false }),
  aBuildPlace({ stretch_m: 0.1, is_reached: false, is_seen: false, in_the_way: ["P2"] }),
  aBuildPlace({ stretch_m: 0.2, is_reached: false, in_the_way: ["P2"] }),
];

test("a panel that is set is one frame, and every place of a run is one", () => {
  const { steps } = aBuild([aBuildStep("set"), aBuildStep("weld", { runs: [aBuildRun(places), aBuildRun([places[0]!])] })]);
  const frames = framesOf(steps);
  expect(frames.map(({ step, spot }) => [step, spot?.run ?? null, spot?.place ?? null])).toEqual([
    [0, null, null],
    [1, 0, 0],
    [1, 0, 1],
    [1, 0, 2],
    [1, 0, 3],
    [1, 1, 0],
  ]);
  expect(timeOf(frames[0]!)).toBeGreaterThan(timeOf(frames[1]!));
});

test("how a place is laid goes by reach first, then by sight, then by the nozzle", () => {
  expect(places.map(laid)).toEqual(["reached", "unseen", "unreached", "unreached"]);
  expect(laid(aBuildPlace({ by_round_nozzle: true }))).toBe("by_round_nozzle");
  expect(laid(aBuildPlace({ by_round_nozzle: true, is_seen: false }))).toBe("unseen");
});

test("places that are laid alike make one stretch, and the stretches make up the run", () => {
  const found = stretches(aBuildRun(places));
  expect(found.map((one) => one.laid)).toEqual(["reached", "unseen", "unreached"]);
  const ends = found.map(({ from, to }) => [from[0], to[0]]).flat();
  [0, 0.1, 0.1, 0.2, 0.2, 0.5].forEach((x, index) => expect(ends[index]).toBeCloseTo(x, 9));
  expect(stretches(aBuildRun([]))).toEqual([]);
});

test("a panel is moved to another place and no further than the ends", () => {
  const list = ["a", "b", "c"];
  expect(moved(list, 0, 2)).toEqual(["b", "c", "a"]);
  expect(moved(list, 2, 0)).toEqual(["c", "a", "b"]);
  expect(moved(list, 1, 9)).toEqual(["a", "c", "b"]);
  expect(moved(list, 1, -1)).toEqual(["b", "a", "c"]);
  expect(moved(list, 1, 1)).toEqual(list);
});
