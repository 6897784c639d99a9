// @vitest-environment happy-dom
import { beforeEach, expect, test } from "vitest";
import type { JobAnswer } from "../api/types";
import { answer } from "./job";
import { toShow, toWrite, unit } from "./typed";
import { showIn } from "./units";

/** A job file whose bare lengths are in `lengths`. */
function jobIn(lengths: string | null): void {
  answer.value = { written: { job: lengths === null ? {} : { lengths } } } as unknown as JobAnswer;
}

beforeEach(() => {
  showIn("metric");
  jobIn("mm");
});

test("a bare length goes bare where the file reads it in the unit that is shown", () => {
  expect(toWrite("8", "length")).toBe(8);
  expect(toWrite(" 8.5 ", "length")).toBe(8.5);
  expect(toWrite("8,5", "length")).toBe("8,5");
});

test("a bare length gets the unit that is shown where the file would read another", () => {
  showIn("inch");
  expect(toWrite("1 1/4", "length")).toBe("1 1/4 in");
  expect(toWrite("38½", "thickness")).toBe("38½ in");
  jobIn(null);
  showIn("metric");
  expect(toWrite("8", "length")).toBe("8 mm");
});

test("what comes with its own unit, or is no number, goes as it was typed", () => {
  expect(toWrite("4' 2-1/2\"", "length")).toBe("4' 2-1/2\"");
  expect(toWrite("8 furlongs", "length")).toBe("8 furlongs");
  expect(toWrite("auto", "thickness")).toBe("auto");
  expect(toWrite("150 stone", "mass")).toBe("150 stone");
});

test("masses, temperatures and years get their unit", () => {
  expect(toWrite("150", "mass")).toBe("150 kg");
  expect(toWrite("-5", "temperature")).toBe("-5 degC");
  expect(toWrite("20 °C", "temperature")).toBe("20 degC");
  expect(toWrite("10", "years")).toBe("10 years");
  showIn("inch");
  expect(toWrite("150", "mass")).toBe("150 lb");
  expect(toWrite("60", "temperature")).toBe("60 degF");
});

test("a plain number is read with either decimal mark", () => {
  expect(toWrite("1.5", "number")).toBe(1.5);
  expect(toWrite("1,5", "number")).toBe(1.5);
  expect(toWrite("many", "count")).toBe("many");
});

test("nothing takes the key out; a list is read as a list only in a text that may be one", () => {
  expect(toWrite("  ", "length")).toBeNull();
  expect(toWrite("[1, 2]", "text")).toEqual([1, 2]);
  expect(toWrite("[1, 2", "text")).toBe("[1, 2");
  expect(toWrite("[1, 2]", "name")).toBe("[1, 2]");
});

test("a value typed in the units that are shown is shown as typed, without the unit beside it", () => {
  expect(toShow(8, "length", 0.008)).toBe("8");
  expect(toShow("8 mm", "length", 0.008)).toBe("8");
  expect(toShow("20 degC", "temperature", 293.15)).toBe("20");
  expect(toShow("10 years", "years", undefined)).toBe("10");
  expect(toShow("12 mm deep", "name", undefined)).toBe("12 mm deep");
});

test("a value typed in other units is shown by its figure", () => {
  expect(toShow("1 1/4 in", "length", 0.03175)).toBe("31.8");
  showIn("inch");
  expect(toShow(980, "length", 0.98)).toBe("38 9/16");
  expect(toShow(8, "thickness", 0.008)).toBe("0.315");
  expect(toShow("20 degC", "temperature", 293.15)).toBe("68");
  expect(toShow("150 kg", "mass", 150)).toBe("330.7");
});

test("a value whose figure is not known stands with the unit that it was typed in", () => {
  showIn("inch");
  expect(toShow(980, "length", undefined)).toBe("980 mm");
  expect(toShow("wrong", "length", undefined)).toBe("wrong");
});

test("what is not in the file is shown as nothing", () => {
  expect(toShow(undefined, "length", undefined)).toBe("");
});

test("each kind of field has the unit of the system that is shown", () => {
  expect([unit("length"), unit("mass"), unit("temperature"), unit("name")]).toEqual(["mm", "kg", "°C", ""]);
  showIn("inch");
  expect([unit("thickness"), unit("mass"), unit("temperature"), unit("count")]).toEqual(["in", "lb", "°F", ""]);
});
