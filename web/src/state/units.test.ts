// @vitest-environment happy-dom
import { beforeEach, expect, test, vi } from "vitest";

let units: typeof import("./units");

async function load(): Promise<void> {
  vi.resetModules();
  units = await import("./units");
}

beforeEach(() => {
  localStorage.clear();
  return load();
});

test("the job's own units are shown until somebody chooses", () => {
  units.followJob("inch");
  expect(units.system.value).toBe("inch");
  units.showIn("metric");
  units.followJob("inch");
  expect(units.system.value).toBe("metric");
});

test("a choice is kept on the device; one that is no system is not", async () => {
  units.showIn("inch");
  await load();
  expect(units.system.value).toBe("inch");
  localStorage.setItem("brimful.units", "cubits");
  await load();
  expect(units.system.value).toBe("metric");
});

test("inches go by the job's smallest fraction, sixteenths where it says none", () => {
  units.followJob("inch", "1/32");
  expect(units.inchParts.value).toBe(32);
  units.followJob("inch");
  expect(units.inchParts.value).toBe(16);
});
