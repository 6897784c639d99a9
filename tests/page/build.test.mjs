// The build played in 3D, and the order of its panels dragged, moved by keys, written into the job and taken out of it.

import assert from "node:assert/strict";
import { test } from "node:test";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { accessible, around, openPage, putExample, shot, wholeChecked } from "./harness.mjs";

const here = around((folder) => putExample(folder, "camper-bench"));

async function open(size = "desktop") {
  const page = await openPage(here.browser, here.server.url, { size });
  // A slow machine draws the picture late, and every frame is counted.
  await page.addInitScript(() => {
    window.frames3d = 0;
    const draw = WebGL2RenderingContext.prototype.drawElements;
    WebGL2RenderingContext.prototype.drawElements = function (...rest) {
      window.frames3d += 1;
      return draw.apply(this, rest);
    };
  });
  await page.goto(`${here.server.url}/job/camper-bench`);
  await wholeChecked(page);
  const weld = page.locator("#weld");
  await weld.locator(".order").waitFor();
  await weld.locator(".canvas").scrollIntoViewIfNeeded();
  await weld.locator("canvas").waitFor();
  return { page, weld };
}

const rows = async (weld) => (await weld.locator(".order li .named button").allInnerTexts()).map((text) => text.replace(/^\d+\. /, ""));
const job = () => readFileSync(join(here.server.folder, "camper-bench.job.toml"), "utf8");

test("the build is played, paused and stepped, and nothing is drawn at rest", async () => {
  const { page, weld } = await open();
  const label = () => weld.locator(".stepper output").innerText();
  assert.match(await label(), /^Step 1 of \d+: Set floor$/);
  await weld.getByRole("button", { name: "Play" }).click();
  await weld.locator(".stepper output", { hasText: "Step 3 of" }).waitFor();
  await weld.getByRole("button", { name: "Pause" }).click();
  const paused = await label();
  await page.waitForTimeout(600);
  const drawn = await page.evaluate(() => window.frames3d);
  assert.ok(drawn > 0, "the picture is drawn");
  await page.waitForTimeout(1500);
  assert.equal(await page.evaluate(() => window.frames3d), drawn, "nothing is drawn at rest");
  assert.equal(await label(), paused);
  assert.deepEqual(page.troubles, []);
});

test("each place of a run says whether it is reached and what is in the way", async () => {
  const { page, weld } = await open();
  const slider = weld.getByRole("slider", { name: /^Place along the runs/ });
  const said = weld.locator(".reach");
  const next = weld.getByRole("button", { name: "Next step" });
  const heard = new Set();
  // Through every step that welds, and over the first places of its runs.
  while ((await next.getAttribute("aria-disabled")) !== "true") {
    await next.click();
    if (!(await slider.isVisible())) continue;
    await slider.focus();
    for (let place = 0; place < 10; place++) {
      const words = await said.innerText();
      heard.add(words.replace(/^.*mm: /, ""));
      // What is in the way is named in the picture too.
      const first = /In the way: (P\d+ [^,.]+)/.exec(words)?.[1];
      if (first) await weld.locator(".labels button", { hasText: first }).waitFor({ state: "attached" });
      await page.keyboard.press("ArrowRight");
    }
  }
  const all = [...heard].join("\n");
  assert.match(all, /Gun and hand get there\./);
  assert.match(all, /Round nozzle only\./);
  await accessible(page, "build");
  await shot(page, "build");
  assert.deepEqual(page.troubles, []);
});

test("a panel is moved by button, by key and by dragging, and its cost is shown at once", async () => {
  const { page, weld } = await open();
  const before = await rows(weld);
  const order = weld.locator(".order");
  const status = order.getByRole("status");
  await order.getByRole("button", { name: "Set P1 rear later" }).click();
  const after = [...before];
  const at = before.indexOf("P1 rear");
  [after[at], after[at + 1]] = [after[at + 1], after[at]];
  assert.deepEqual(await rows(weld), after);
  // The button keeps the focus, so that the panel can be moved on.
  assert.match(await page.evaluate(() => document.activeElement.getAttribute("aria-label")), /^Set P1 rear later$/);
  await status.getByText(/better order was found|costs more than the best/).waitFor();
  const handle = order.getByRole("button", { name: /^Drag P1 rear/ });
  await handle.focus();
  await page.keyboard.press("ArrowUp");
  await page.waitForFunction((wanted) => [...document.querySelectorAll("#weld .order li .named button")].map((one) => one.textContent.replace(/^\d+\. /, "")).join() === wanted, before.join());
  // A wall to the beginning: it hangs loose, and that is told.
  const box = async (locator) => (await locator.boundingBox()) ?? assert.fail("a box");
  await order.scrollIntoViewIfNeeded();
  const [from, to] = [await box(order.getByRole("button", { name: /^Drag P4 left/ })), await box(order.locator("li").first())];
  await page.mouse.move(from.x + from.width / 2, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(from.x + from.width / 2, to.y + to.height / 2, { steps: 6 });
  await page.mouse.up();
  await page.waitForFunction(() => document.querySelector("#weld .order li .named button").textContent === "1. P4 left");
  await status.getByText("This order costs more than the best one found").waitFor();
  await shot(page, "build-order");
  // A drag that is broken off changes nothing.
  const dragged = await rows(weld);
  const handleBox = await box(order.getByRole("button", { name: /^Drag P5 floor/ }));
  await page.mouse.move(handleBox.x + 10, handleBox.y + 10);
  await page.mouse.down();
  await page.mouse.move(handleBox.x + 10, handleBox.y + 200, { steps: 4 });
  await page.keyboard.press("Escape");
  await page.mouse.up();
  await page.waitForTimeout(300);
  assert.deepEqual(await rows(weld), dragged);
  await status.getByText("This order costs more than the best one found").waitFor();
  // A baffle cannot be set once all about it stands: told, with what to do, and no order to write.
  await order.getByRole("button", { name: "Set P6 lid earlier" }).click();
  await status.getByText(/cannot be followed.*once all about them stands/).waitFor();
  assert.equal(await order.getByRole("button", { name: "Use this order in the job" }).count(), 0);
  await order.getByRole("button", { name: "Discard the moves" }).click();
  await page.waitForFunction((wanted) => [...document.querySelectorAll("#weld .order li .named button")].map((one) => one.textContent.replace(/^\d+\. /, "")).join() === wanted, before.join());
  assert.deepEqual(page.troubles, []);
});

test("an order is written into the job, followed, and taken out again", async () => {
  const { page, weld } = await open("phone");
  const order = weld.locator(".order");
  const text = job();
  await order.getByRole("button", { name: "Set P1 rear later" }).tap();
  await order.getByRole("button", { name: "Use this order in the job" }).tap();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  assert.match(job(), /\[weld\]\norder = \[\s*"floor"/);
  const wanted = await rows(weld);
  await order.getByRole("button", { name: "Take the order out of the job" }).waitFor();
  // Large enough for a finger.
  for (const button of await order.getByRole("button", { name: /^(Drag|Set) / }).all()) {
    const { width, height } = await button.boundingBox();
    assert.ok(width >= 40 && height >= 40, `${width} x ${height}`);
  }
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= innerWidth));
  await accessible(page, "build-phone");
  await shot(page, "build-phone");
  await order.getByRole("button", { name: "Take the order out of the job" }).tap();
  await page.getByText("Checking the whole tank").waitFor();
  await wholeChecked(page);
  assert.doesNotMatch(job(), /\[weld\]/);
  assert.equal(job().trim(), text.trim());
  await page.waitForFunction((own) => [...document.querySelectorAll("#weld .order li .named button")].map((one) => one.textContent.replace(/^\d+\. /, "")).join() !== own, wanted.join());
  assert.deepEqual(page.troubles, []);
});
