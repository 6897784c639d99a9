// A new user makes the camper bench box from an empty page to the downloaded pack: once by mouse,
// once by keyboard alone. The job is S1 of the project's scenarios; its space, sheets and wishes are
// typed into a plain starter. Checked against figures worked out by hand beside the scenario: brim
// 113.4 L for the plain box of 8 mm inside 948 x 358 x 334 mm, which a baffle then takes 0.8 L from.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { test } from "node:test";
import { accessible, around, figure, openPage, shot, wholeChecked } from "./harness.mjs";

const here = around();

const BRIM_L = 0.948 * 0.358 * 0.334 * 1000;
/** The baffle stands between air and drain gaps of 27 mm: 280 mm high. */
const BAFFLE_L = 0.008 * 0.358 * 0.28 * 1000;
/** What a figure with one decimal may be off. */
const ROUNDING_L = 0.06;

/** What is typed: the stage, the group in it, the label, the text. */
const TYPED = [
  ["space", "Space", "x, along", "980"],
  ["space", "Space", "y, across", "430"],
  ["space", "Space", "z, up", "410"],
  ["space", "Space", "Clearance kept round the tank", "8"],
  ["space", "Space", "Kept free above, for elbows and hands", "60"],
  ["space", "Space", "wide", "980"],
  ["space", "Space", "high", "430"],
];
const OBSTACLES = [
  ["batten", ["0", "390", "0"], ["40", "430", "410"]],
  ["trunking", ["0", "390", "0"], ["980", "430", "60"]],
];
const BODY = [
  ["space", "Body (tank outside)", "x, along", "964"],
  ["space", "Body (tank outside)", "y, across", "374"],
  ["space", "Body (tank outside)", "z, up", "350"],
  ["space", "Body (tank outside)", "x", "8"],
  ["space", "Body (tank outside)", "y", "8"],
  ["space", "Body (tank outside)", "z", "0"],
  ["space", "Liquid", "Capacity wanted", "100 L usable"],
  ["space", "Liquid", "Air space", "25"],
];
const MIDDLE = "Centre, from the lower left corner seen from outside: right";
const BAFFLE = [["At", "482"], ["Thickness", "8"], ["Air gap", "27"], ["Drain gap", "27"]];
const FILLER = [[MIDDLE, "80"], ["up", "90"], ["Diameter", "32"], ["Flange", "60"]];
const VENT = [[MIDDLE, "880"], ["up", "300"], ["Diameter", "14"], ["Flange", "30"]];
const OUTLET = [[MIDDLE, "880"], ["up", "45"]];
const OPENINGS = [
  ["hatch", "hatch", "lid", "260", "187", "150", "190"],
  ["level sender", "sender", "lid", "720", "187", "40", "70"],
];

async function makeJob(page, name) {
  await page.goto(here.server.url);
  await page.getByText("There are no jobs yet").waitFor();
  await page.getByLabel("Name of the job").fill(name);
  await page.getByRole("button", { name: "Create the job" }).click();
  await page.getByRole("heading", { name: "Space" }).waitFor();
}

async function type(page, [stage, group, label, text]) {
  const field = page.locator(`#${stage}`).getByRole("group", { name: group, exact: true }).getByLabel(label, { exact: true }).first();
  await field.fill(text);
  await field.press("Enter");
}

async function addRow(page, stage, button, fill) {
  await page.locator(`#${stage}`).getByRole("button", { name: button }).click();
  const form = page.locator(`#${stage} form.new`);
  await fill(form);
  await form.getByRole("button", { name: "Add", exact: true }).click();
  await form.waitFor({ state: "detached" });
}

async function changeRow(page, stage, row, values) {
  const entry = page.locator(`#${stage} details`, { has: page.locator("summary", { hasText: row }) }).first();
  await entry.locator("summary").click();
  for (const [label, text] of values) {
    const field = entry.getByLabel(label, { exact: true });
    if ((await field.evaluate((element) => element.tagName)) === "SELECT") await field.selectOption(text);
    else {
      await field.fill(text);
      await field.press("Enter");
    }
  }
}

test("by mouse, from an empty page to the pack", async () => {
  const page = await openPage(here.browser, here.server.url);
  await makeJob(page, "bench box");
  for (const one of TYPED) await type(page, one);
  for (const [name, from, to] of OBSTACLES) {
    await addRow(page, "space", "Add obstacle", async (form) => {
      await form.getByLabel("Name").fill(name);
      for (const [index, axis] of ["x", "y", "z"].entries()) {
        await form.getByLabel(`From ${axis}`).fill(from[index]);
        await form.getByLabel(`To ${axis}`).fill(to[index]);
      }
    });
  }
  for (const one of BODY) await type(page, one);
  await changeRow(page, "tank", "baffle", BAFFLE);
  await changeRow(page, "tank", "filler", FILLER);
  await changeRow(page, "tank", "vent", VENT);
  await changeRow(page, "tank", "outlet", OUTLET);
  for (const [name, service, panel, right, up, diameter, flange] of OPENINGS) {
    await addRow(page, "tank", "Add opening", async (form) => {
      await form.getByLabel("Name").fill(name);
      await form.getByLabel("Service").selectOption(service);
      await form.getByLabel("Panel").selectOption(panel);
      await form.getByLabel(MIDDLE).fill(right);
      await form.getByLabel("up").fill(up);
      await form.getByLabel("Diameter").fill(diameter);
      await form.getByLabel("Flange").fill(flange);
    });
  }
  await type(page, ["hold", "Tilt in use", "Payload left", "150"]);
  await wholeChecked(page);

  brimAsByHand(await figure(page, "Brim"));
  // The usable hundred litres that were wished for are not there: the scenario's first trap.
  await page.locator("#findings .finding.stop", { hasText: "usable capacity is less" }).waitFor();
  await shot(page, "s1-mouse-space");
  await download(page);
  await accessible(page, "S1 whole");
  await shot(page, "s1-mouse-papers");
  assert.deepEqual(page.troubles, []);
});

function brimAsByHand(shown) {
  const brim = Number.parseFloat(shown);
  assert.ok(Math.abs(brim - (BRIM_L - BAFFLE_L)) < ROUNDING_L, `brim ${brim} L, by hand ${BRIM_L - BAFFLE_L} L`);
}

async function download(page) {
  const papers = page.locator("#papers");
  await papers.getByRole("button", { name: "Make the build pack" }).click();
  const all = papers.getByRole("link", { name: "Download all as a zip file" });
  await all.waitFor({ timeout: 60_000 });
  assert.equal((await saved(page, all)).subarray(0, 2).toString(), "PK");
  assert.equal((await saved(page, papers.getByRole("link", { name: "build-pack.pdf" }))).subarray(0, 5).toString(), "%PDF-");
  assert.match((await saved(page, papers.getByRole("link", { name: /P\d+-lid\.dxf/ }))).toString(), /SECTION/);
}

async function saved(page, link) {
  const [file] = await Promise.all([page.waitForEvent("download"), link.click()]);
  return readFileSync(await file.path());
}

test("by keyboard alone, from an empty page to the pack", async () => {
  const page = await openPage(here.browser, here.server.url);
  await page.goto(here.server.url);
  await page.getByLabel("Name of the job").waitFor();
  const { keyboard } = page;
  await reach(page, "Name of the job");
  await keyboard.type("bench box by keys");
  await keyboard.press("Enter");
  await page.getByRole("heading", { name: "Space" }).waitFor();

  for (const [, , label, text] of [...TYPED, ["", "", "Add obstacle", null]]) {
    await reach(page, label);
    if (text !== null) await retype(page, text);
  }
  await keyboard.press("Enter");
  for (const [index, [name, from, to]] of OBSTACLES.entries()) {
    if (index > 0) await keyboard.press("Enter");
    await fillNew(page, [name, ...from, ...to]);
    await page.locator("#space summary", { hasText: name }).waitFor();
  }
  for (const [, , label, text] of BODY) {
    await reach(page, label);
    await retype(page, text);
  }
  await changeByKeys(page, "baffle", BAFFLE);
  await changeByKeys(page, "filler", FILLER);
  await changeByKeys(page, "vent", VENT);
  await changeByKeys(page, "outlet", OUTLET);
  await reach(page, "Add opening");
  for (const opening of OPENINGS) {
    await keyboard.press("Enter");
    await fillNew(page, opening);
    await page.locator("#tank summary", { hasText: opening[0] }).waitFor();
  }
  await reach(page, "Payload left");
  await retype(page, "150");
  await reach(page, "Make the build pack");
  await wholeChecked(page);
  brimAsByHand(await figure(page, "Brim"));
  await keyboard.press("Enter");
  await page.getByRole("link", { name: "Download all as a zip file" }).waitFor({ timeout: 60_000 });
  await reach(page, "Download all as a zip file");
  const [file] = await Promise.all([page.waitForEvent("download"), keyboard.press("Enter")]);
  assert.equal(readFileSync(await file.path()).subarray(0, 2).toString(), "PK");
  assert.deepEqual(page.troubles, []);
});

/** Presses Tab until the thing of this name has the focus. */
async function reach(page, name) {
  for (let presses = 0; presses < 400; presses++) {
    await page.keyboard.press("Tab");
    const now = await page.evaluate(() => {
      const element = document.activeElement;
      return element?.labels?.[0]?.innerText.trim() ?? element?.getAttribute("aria-label") ?? element?.textContent?.trim();
    });
    if (now === name) return;
  }
  assert.fail(`${name} is not reached by Tab`);
}

/** Opens an entry of a list and types its values. */
async function changeByKeys(page, row, values) {
  await reach(page, row);
  await page.keyboard.press("Enter");
  for (const [label, text] of values) {
    await reach(page, label);
    await retype(page, text);
  }
}

/** Fills the fields of a new entry one after another, choices by their letters; the focus is in the first. */
async function fillNew(page, values) {
  for (const [index, value] of values.entries()) {
    if (index > 0) await page.keyboard.press("Tab");
    await page.keyboard.type(value);
  }
  await reach(page, "Add");
  await page.keyboard.press("Enter");
}

async function retype(page, text) {
  await page.keyboard.press("Control+A");
  await page.keyboard.type(text);
}
