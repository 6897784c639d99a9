// What the stages of the work view answer when they are asked: bodies, remedies, steps, findings.

import assert from "node:assert/strict";
import { test } from "node:test";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { accessible, around, figure, openPage, putExample, shot, wholeChecked } from "./harness.mjs";

const here = around((folder) => {
  putExample(folder, "camper-bench");
  putExample(folder, "bench-box", "low-box");
  // Low enough that thicker sheet alone makes it hold.
  const low = join(folder, "low-box.job.toml");
  const text = readFileSync(low, "utf8").replace("[700, 400, 300]", "[700, 400, 180]").replace("60 L rated", "30 L rated");
  writeFileSync(low, text);
});

async function open(job = "camper-bench") {
  const page = await openPage(here.browser, here.server.url);
  await page.goto(`${here.server.url}/job/${job}`);
  await wholeChecked(page);
  return page;
}

test("remedies show what they change, before and after", async () => {
  const page = await open();
  const hold = page.locator("#hold");
  await hold.getByRole("button", { name: "Find fixes" }).click();
  const first = hold.locator(".remedy").first();
  await first.waitFor({ timeout: 60_000 });
  await first.locator("summary").click();
  const row = first.locator("tr", { hasText: "Load against limit" }).locator("td");
  const [was, is] = (await row.allInnerTexts()).map((text) => Number.parseFloat(text));
  assert.ok(was > 100 && is < was, `${was} % then ${is} %`);
  assert.match(await first.locator("summary").innerText(), /holds|not enough|below the litres wanted/);
  await accessible(page, "remedies");
  await shot(page, "remedies");
  assert.deepEqual(page.troubles, []);
});

test("a remedy put into the job does what was shown, and undo takes it out again", async () => {
  const page = await open("low-box");
  const hold = page.locator("#hold");
  const worst = async () => Number.parseFloat(await hold.locator("table").first().locator("tbody td").first().innerText());
  const was = await worst();
  await hold.getByRole("button", { name: "Find fixes" }).click();
  const button = page.getByText("Apply", { exact: true });
  const first = hold.locator(".remedy", { hasText: "✓ holds", has: button }).first();
  await first.waitFor({ timeout: 60_000 });
  await first.locator("summary").click();
  const shown = Number.parseFloat(await first.locator("tr", { hasText: "Load against limit" }).locator("td").last().innerText());
  await first.getByRole("button", { name: "Apply" }).click();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  const is = await worst();
  // The trial is on the first mesh; finer ones give more at feet and corners.
  assert.ok(is < was && is < shown * 1.6 && is > shown * 0.7, `${was} %, shown ${shown} %, then ${is} %`);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  assert.equal(await worst(), was);
  assert.deepEqual(page.troubles, []);
});

test("the bulge is drawn under the load that is chosen, and a worst place is shown in the picture", async () => {
  const page = await open();
  const hold = page.locator("#hold");
  const choice = hold.getByRole("combobox", { name: /^Load case/ });
  const loads = await choice.locator("option").allInnerTexts();
  for (const load of [loads[2], loads.at(-1)]) {
    await choice.selectOption(load);
    await hold.getByText(`The picture shows the bulge under this load case: ${load}.`).waitFor();
  }
  await hold.locator("table").first().getByRole("button").first().click();
  await page.waitForTimeout(700);
  assert.ok(await hold.locator("canvas").isVisible());
  await shot(page, "hold-place");
  assert.deepEqual(page.troubles, []);
});

test("figures and sentences change their units together", async () => {
  const page = await open();
  // Also those that are not laid out yet.
  const said = async () => (await page.locator("#findings .finding :is(p, summary ~ *)").allTextContents()).join("\n");
  assert.match(await said(), /\d mm/);
  await page.getByRole("button", { name: "in · gal · lb" }).click();
  // What the method itself takes for granted keeps the units of its source.
  const others = async () => (await said()).split("\n").filter((line) => !line.includes("Panels are thin plates"));
  // Figures are the page's own and change at once; the sentence comes from the server.
  await page.locator("#findings .findings", { hasText: /worst at x [\d /]+ in\b/ }).waitFor();
  assert.deepEqual((await others()).filter((line) => /\d (mm|kg|L|kPa)\b/.test(line)), []);
  await page.getByRole("button", { name: "mm · L · kg" }).click();
  await page.locator("#findings .findings", { hasText: /worst at x [\d.]+ mm/ }).waitFor();
  assert.deepEqual(page.troubles, []);
});

test("a body that fits is compared with others, taken, and is then the tank", async () => {
  const page = await open();
  const fits = page.locator("#fits");
  await fits.getByRole("button", { name: "Find shapes that fit" }).click();
  const box = fits.locator(".offers li", { has: page.getByRole("heading", { name: "plain box", exact: true }) });
  await box.waitFor({ timeout: 60_000 });
  await shot(page, "fits");
  assert.ok((await fits.locator(".offers li").count()) >= 3);
  const told = async (offer, label) => offer.locator("dl div", { has: page.locator("dt", { hasText: new RegExp(`^${label}$`) }) }).locator("dd").innerText();
  const rated = await told(box, "Rated");
  // By hand: 980 x (390 - 0) x 350 less clearance of 8 a side and walls of 8: no box of this space holds more than 118 L.
  assert.ok(Number.parseFloat(rated) > 95 && Number.parseFloat(rated) < 118, rated);
  await accessible(page, "fits");
  await box.getByRole("button", { name: "Use this shape" }).click();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  // It was told bare; the baffle takes, by hand, 8 x 358 x (334 - 2 x 27) mm = 0.80 L of it.
  const less = Number.parseFloat(rated) - Number.parseFloat(await figure(page, "Rated"));
  assert.ok(Math.abs(less - 0.8) < 0.15, `${less} L less than the bare body`);
  assert.match(readFileSync(join(here.server.folder, "camper-bench.job.toml"), "utf8"), /fitted = "plain box"/);
  await page.getByRole("button", { name: "Undo" }).click();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  assert.deepEqual(page.troubles, []);
});

test("cuts and welds are stepped through by button and by arrow key", async () => {
  const page = await open();
  for (const [stage, what] of [["cut", "Cut"], ["weld", "Step"]]) {
    const stepper = page.locator(`#${stage} .stepper`).first();
    const label = () => stepper.locator("output").innerText();
    const all = Number(/of (\d+)/.exec(await label())[1]);
    assert.ok(all > 5);
    await stepper.getByRole("button").last().click();
    assert.match(await label(), new RegExp(`^${what} 2 of`));
    await page.keyboard.press("ArrowLeft");
    assert.match(await label(), new RegExp(`^${what} 1 of`));
    for (let step = 1; step < all; step++) await page.keyboard.press("ArrowRight");
    assert.match(await label(), new RegExp(`^${what} ${all} of ${all}`));
    await shot(page, `stepped-${stage}`);
  }
  assert.deepEqual(page.troubles, []);
});

test("a finding leads to its place", async () => {
  const page = await open();
  // The others of a cause are behind its worst.
  await page.locator("#findings .others").evaluateAll((all) => all.forEach((one) => (one.open = true)));
  await page.getByRole("button", { name: /^Show the place: S\d+ / }).first().click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "hold");
  await page.getByRole("button", { name: "Show the place: right", exact: true }).first().click();
  await page.locator("#tank tr.lit", { hasText: "right" }).waitFor();
  await page.getByRole("button", { name: "Show the place: order of work" }).click();
  assert.equal(await page.evaluate(() => document.activeElement.id), "weld");
  assert.deepEqual(page.troubles, []);
});

test("long work is stopped by a person, and done on asking again", async () => {
  const page = await openPage(here.browser, here.server.url);
  await page.goto(`${here.server.url}/job/camper-bench`);
  await page.locator(".figures").waitFor();
  await page.locator("#space").getByLabel("Air space").fill("33");
  await page.keyboard.press("Enter");
  await page.locator(".state progress").waitFor();
  await page.getByRole("button", { name: "Cancel", exact: true }).click();
  await page.getByText("The check was cancelled").waitFor();
  await page.locator(".state").getByRole("button", { name: "Check the whole tank" }).click();
  await wholeChecked(page);
  assert.deepEqual(page.troubles, []);
});

test("undo by keys, but not from within a field", async () => {
  const page = await open();
  const clearance = page.locator("#space").getByLabel("Clearance kept round the tank");
  await clearance.fill("9");
  await clearance.press("Enter");
  await page.getByText("Redo").and(page.locator("[aria-disabled=true]")).waitFor();
  await page.locator("#space").focus();
  await page.keyboard.press("Control+z");
  await page.getByText("Redo").and(page.locator("[aria-disabled=false]")).waitFor();
  assert.equal(await clearance.inputValue(), "8");
});
