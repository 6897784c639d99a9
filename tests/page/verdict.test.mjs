// The first screen: whether it can be built, what stops it, what fixes that; and never the verdict of another text.

import assert from "node:assert/strict";
import { test } from "node:test";
import { SIZES, accessible, around, openPage, putExample, shot, wholeChecked } from "./harness.mjs";

const here = around((folder) => {
  putExample(folder, "camper-bench");
  putExample(folder, "bench-box");
});

async function open(size, job = "camper-bench") {
  const page = await openPage(here.browser, here.server.url, { size });
  await page.goto(`${here.server.url}/job/${job}`);
  await wholeChecked(page);
  return page;
}

for (const size of ["desktop", "phone"]) {
  test(`the verdict and its causes fit the first screen: ${size}`, async () => {
    const page = await open(size);
    const card = page.locator("#verdict");
    await card.getByRole("heading", { name: /^Do not build yet: \d+ causes stop it$/ }).waitFor();
    const causes = await card.locator("ol").first().locator("li").count();
    assert.ok(causes > 0);
    const { y, height } = await card.boundingBox();
    await shot(page, `verdict-${size}`);
    assert.ok(y + height <= SIZES[size].height, `${causes} causes end at ${y + height} px of ${SIZES[size].height}`);
    await accessible(page, `verdict ${size}`);
    assert.deepEqual(page.troubles, []);
  });
}

test("fixes are worked out on request, each with its cost", async () => {
  const page = await open("desktop", "bench-box");
  const card = page.locator("#verdict");
  await card.getByRole("button", { name: "Find fixes and their cost" }).click();
  await card.getByText(/Adds [\d.]+ kg of sheet|It holds [\d.]+ L less/).first().waitFor({ timeout: 60_000 });
  await shot(page, "verdict-fixes");
  assert.deepEqual(page.troubles, []);
});

test("a check that is cancelled leaves no verdict of the text before", async () => {
  const page = await open("desktop");
  await page.locator("#space").getByLabel("Air space").fill("34");
  // Nothing of the new text is known yet.
  await page.route("**/plan?*", () => undefined);
  await page.keyboard.press("Enter");
  await page.getByRole("button", { name: "Cancel", exact: true }).click();
  const card = page.locator("#verdict");
  await card.getByRole("heading", { name: "Not known: this version of the job has not been checked" }).waitFor();
  assert.equal(await page.getByText("Do not build yet").count(), 0);
  assert.equal(await page.getByText("Whole tank checked").count(), 0);
  await page.unroute("**/plan?*");
  await card.getByRole("button", { name: "Check the whole tank" }).click();
  await wholeChecked(page);
  await card.getByRole("heading", { name: /^Do not build yet/ }).waitFor();
  assert.deepEqual(page.troubles, []);
});
