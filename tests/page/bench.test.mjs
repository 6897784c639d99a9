// The bench view with a network that dies: ticks and notes are kept, the page opens again, and all
// is sent once when the network is back.

import assert from "node:assert/strict";
import { test } from "node:test";
import { around, openPage, putExample, shot } from "./harness.mjs";

const here = around((folder) => putExample(folder, "camper-bench"));

test("ticks and notes survive a dead network", async () => {
  const page = await openPage(here.browser, here.server.url, { size: "phone" });
  await page.goto(`${here.server.url}/bench/camper-bench`);
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByText("All sent").waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(async () => (await (await caches.open("brimful-page")).keys()).length > 3);

  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByLabel("What was different, measured, tried").fill("Gun ran cool, 310 °C");
  await page.getByRole("button", { name: "Keep the note" }).click();
  await page.getByText("2 kept on this device").waitFor();
  await shot(page, "phone-bench-offline");

  // The phone is put down and picked up again, still with no network.
  await page.reload();
  await page.getByText("2 kept on this device").waitFor();
  await page.getByText("Gun ran cool").waitFor();

  await page.context().setOffline(false);
  await page.getByText("All sent").waitFor({ timeout: 15_000 });
  const { entries } = await fetch(`${here.server.url}/api/jobs/camper-bench/build`).then((answer) => answer.json());
  assert.deepEqual(entries.map((entry) => entry.kind), ["tick", "tick", "note"]);
  assert.equal(new Set(entries.map((entry) => entry.client_id)).size, 3);
  assert.equal(entries[2].value, "Gun ran cool, 310 °C");
});

test("a wait counts by the clock, also while another step is shown", async () => {
  const page = await openPage(here.browser, here.server.url, { size: "phone" });
  await page.goto(`${here.server.url}/bench/camper-bench`);
  await page.getByRole("button", { name: "Next" }).waitFor();
  const timer = page.getByRole("timer");
  const next = page.getByRole("button", { name: "Next" });
  for (let steps = 0; (await timer.count()) === 0; steps++) {
    assert.ok(steps < 100, "no step of this job has a wait");
    await next.click();
    await page.waitForTimeout(20);
  }
  const whole = await timer.innerText();
  await page.getByRole("button", { name: "Start" }).click();
  await next.click();
  await page.waitForTimeout(2100);
  await page.getByRole("button", { name: "◀ Back" }).click();
  const left = await timer.innerText();
  const seconds = (shown) => shown.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
  const gone = seconds(whole) - seconds(left);
  assert.ok(gone >= 1 && gone <= 5, `${whole} then ${left}`);
});
