import { expect, test } from "vitest";
import { at, placeInList, plain } from "./path";

const job = { opening: [{ at: [80, 90] }, { at: ["1 in", 5] }], space: { box: [980, 430, 410] } };

test("keys count from 1, as the faults write them", () => {
  expect(at(job, "opening[2].at[1]")).toBe("1 in");
  expect(at(job, "space.box[3]")).toBe(410);
});

test("what is not there is undefined, however deep", () => {
  expect(at(job, "opening[3].at[1]")).toBeUndefined();
  expect(at(null, "space.box[1]")).toBeUndefined();
  expect(at(job, "space.box[1].more")).toBeUndefined();
});

test("a plain key has no counts", () => {
  expect(plain("stock.sheet[2].size[1]")).toBe("stock.sheet.size");
});

test("a place in a list, and what is none", () => {
  expect(placeInList("opening[2].at[1]")).toEqual(["opening[2].at", 1]);
  expect(placeInList("opening[2].name")).toBeNull();
});
