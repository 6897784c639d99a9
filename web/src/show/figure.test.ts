import { beforeAll, expect, test, vi } from "vitest";

vi.stubGlobal("localStorage", { getItem: () => null, setItem: () => undefined });
vi.stubGlobal("navigator", { language: "en-GB" });
let figure: typeof import("./figure");
let units: typeof import("../state/units");
beforeAll(async () => {
  [figure, units] = await Promise.all([import("./figure"), import("../state/units")]);
});

test("metric lengths, volumes and masses", () => {
  units.showIn("metric");
  expect(figure.length(0.3565)).toBe("356.5 mm");
  expect(figure.size([0.964, 0.374])).toBe("964 × 374 mm");
  expect(figure.volume(0.1125523)).toBe("112.6 L");
  expect(figure.mass(13.4134)).toBe("13.4 kg");
  expect(figure.range(300, 340, "degC")).toBe("300–340 °C");
});

// An inch is 25.4 mm, a US gallon 231 cubic inches, a pound 0.45359237 kg: their definitions.
test("inches go by sixteenths, in lowest terms", () => {
  units.showIn("inch");
  expect(figure.length(0.0254 * 17.75)).toBe("17\u00a03/4 in");
  expect(figure.length(0.0254 / 16)).toBe("1/16 in");
  expect(figure.length(0.0254 * 38)).toBe("38 in");
  expect(figure.length(-0.0254 * 6.5)).toBe("-6\u00a01/2 in");
  expect(figure.length(0.0254 * 0.999)).toBe("1 in");
  expect(figure.volume(231 * 0.0254 ** 3 * 120)).toBe("120 US gal");
  expect(figure.mass(0.45359237 * 1250)).toBe("1250 lb");
  expect(figure.range(572, 644, "degF")).toBe("572–644 °F");
  expect(figure.range(9.84, 13.78, "in/min")).toBe("9.8–13.8 in/min");
  expect(figure.quantity({ value: 144 * 4.4482216152605, unit: "n" })).toBe("144 lbf");
});

test("an unknown unit of a finding is shown as it came", () => {
  expect(figure.quantity({ value: 2.5, unit: "x" })).toBe("2.5 x");
});

test("each unit of a finding is shown as a person reads it", () => {
  units.showIn("metric");
  const shown = (value: number, unit: string) => figure.quantity({ value, unit });
  expect(shown(0.0023, "m")).toBe("2.3 mm");
  expect(shown(0.5, "rad")).toBe("28.6°");
  expect(shown(293.15, "k")).toBe("20 °C");
  expect(shown(1.054, "ratio")).toBe("105 %");
  expect(shown(0.25e6, "pa")).toBe("0.25 MPa");
  expect(shown(9806, "pa")).toBe("9.81 kPa");
  expect(shown(5400, "s")).toBe("1.5 h");
  expect(shown(90, "s")).toBe("2 min");
});

test("a mixed number is not broken between its whole and its fraction", () => {
  expect(figure.unbroken("17 3/4 in by 2 1/2 in")).toBe("17\u00a03/4 in by 2\u00a01/2 in");
});
