// Every view at desktop, tablet and phone size: nothing serious by axe-core, nothing wider than the
// screen, a screenshot to look at.

import assert from "node:assert/strict";
import { test } from "node:test";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { accessible, around, openPage, putExample, shot, SIZES, wholeChecked } from "./harness.mjs";

const here = around((folder) => {
  putExample(folder, "camper-bench");
  putExample(folder, "two-compartment");
  writeFileSync(join(folder, "broken.job.toml"), '[job\nlengths = "mm"\n');
});

const STAGES = {
  space: "Space",
  fits: "What fits",
  tank: "Tank",
  hold: "Will it hold",
  cut: "Cut",
  weld: "Weld",
  findings: "Findings",
  papers: "Papers",
};
/** A gloved thumb: the least side of a target at the bench, in pixels of the page. */
const GLOVED = 56;

for (const size of Object.keys(SIZES)) {
  test(`jobs and work view, ${size}`, async () => {
    const page = await openPage(here.browser, here.server.url, { size });
    await page.goto(here.server.url);
    await page.getByRole("link", { name: "camper bench", exact: true }).waitFor();
    await accessible(page, "jobs");
    await narrow(page, "jobs");
    await shot(page, `${size}-jobs`);

    await page.getByRole("link", { name: "camper bench", exact: true }).click();
    await wholeChecked(page);
    for (const details of await page.locator(".stage details").all()) await details.evaluate((one) => (one.open = true));
    await accessible(page, "work view, all open");
    await narrow(page, "work view, all open");
    for (const details of await page.locator(".stage details").all()) await details.evaluate((one) => (one.open = false));
    for (const [index, [stage, name]] of Object.entries(STAGES).entries()) {
      await page.locator(".rail").getByRole("link", { name, exact: true }).click();
      await page.waitForTimeout(size === "desktop" ? 700 : 400);
      await shot(page, `${size}-${index + 1}-${stage}`);
    }
    assert.deepEqual(page.troubles, []);
  });

  test(`bench and text views, ${size}`, async () => {
    const page = await openPage(here.browser, here.server.url, { size });
    await page.goto(`${here.server.url}/bench/camper-bench`);
    await page.getByRole("button", { name: "Done" }).waitFor();
    for (const light of ["Dark", "Light"]) {
      await accessible(page, `bench, before ${light}`);
      await narrow(page, "bench");
      await shot(page, `${size}-bench-${light === "Dark" ? "light" : "dark"}`);
      await page.getByRole("button", { name: light, exact: true }).click();
    }
    for (const target of await page.locator("button:visible, a:visible, select:visible, textarea:visible").all()) {
      const box = await target.boundingBox();
      assert.ok(box.height >= GLOVED && box.width >= GLOVED, `${await target.innerText()} is ${box.width} x ${box.height}`);
    }
    await page.getByRole("button", { name: /All steps/ }).click();
    await accessible(page, "all steps");
    await shot(page, `${size}-bench-steps`);

    await page.goto(`${here.server.url}/job/broken`);
    await page.getByRole("textbox", { name: "Text of the job file" }).waitFor();
    await page.getByText("this is not TOML").waitFor();
    await page.getByRole("button", { name: "Line 1, column 5" }).click();
    await accessible(page, "text view");
    await shot(page, `${size}-text`);
    assert.deepEqual(page.troubles, []);
  });
}

test("the work view in the dark, as the device asks for it", async () => {
  const page = await openPage(here.browser, here.server.url);
  await page.emulateMedia({ colorScheme: "dark", reducedMotion: "reduce" });
  await page.goto(`${here.server.url}/job/camper-bench`);
  await wholeChecked(page);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), "dark");
  await accessible(page, "work view, dark");
  await shot(page, "desktop-dark");
  assert.deepEqual(page.troubles, []);
});

test("the tank filled, cut through and pulled apart", async () => {
  const page = await openPage(here.browser, here.server.url);
  await page.goto(`${here.server.url}/job/camper-bench#tank`);
  await wholeChecked(page);
  const tank = page.locator("#tank");
  await tank.getByRole("slider", { name: "Liquid level" }).fill("0.15");
  // Inside, the baffle stands in the liquid from its drain gap of 27 mm up.
  const litres = (0.948 * 0.358 * 0.15 - 0.008 * 0.358 * (0.15 - 0.027)) * 1000;
  await tank.getByText(/holds/).waitFor();
  await page.waitForTimeout(600);
  const shown = Number.parseFloat((await tank.getByText(/holds/).innerText()).match(/[\d.]+/)[0]);
  // The slider moves in steps of a two-hundredth of 334 mm; a step is 0.57 L.
  assert.ok(Math.abs(shown - litres) < 0.6, `${shown} L, by hand ${litres} L`);
  await tank.getByRole("slider", { name: "Cut through" }).fill("0.4");
  await page.waitForTimeout(500);
  await tank.scrollIntoViewIfNeeded();
  await shot(page, "tank-filled");
  assert.deepEqual(page.troubles, []);
});

/** Nothing makes the page scroll sideways. */
async function narrow(page, what) {
  const [wide, screen] = await page.evaluate(() => [document.documentElement.scrollWidth, innerWidth]);
  assert.ok(wide <= screen, `${what}: ${wide} px wide on a screen of ${screen}`);
}
