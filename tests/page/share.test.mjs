// A server that is shared with the workshop, seen from another address than its own machine's: the code, and
// a phone at the bench over plain http.

import assert from "node:assert/strict";
import { networkInterfaces } from "node:os";
import { after, before, test } from "node:test";
import { accessible, browse, openPage, putExample, serve, shot } from "./harness.mjs";

const here = {};
before(async () => {
  [here.server, here.browser] = await Promise.all([serve("--share"), browse()]);
  putExample(here.server.folder, "camper-bench");
  here.outside = /Others in the workshop open (http:\/\/[^/]+)\//.exec(here.server.said())?.[1];
  here.code = () => fetch(`${here.server.url}/api/about`).then((answer) => answer.json()).then(({ code }) => code);
});
after(async () => {
  await here.browser?.close();
  here.server?.stop();
});

const isOnNetwork = Object.values(networkInterfaces()).flat().some(({ internal, family }) => !internal && family === "IPv4");
const skip = isOnNetwork ? false : "this machine is on no network";

test("a phone comes in by the code alone, and each code lets in one", { skip }, async () => {
  assert.match(here.server.said(), /type the code \d{6}\./);
  assert.doesNotMatch(here.outside, /127\.0\.0\.1/);
  const code = await here.code();
  const page = await openPage(here.browser, here.outside, { size: "phone" });
  await page.goto(`${here.outside}/bench/camper-bench?code=${code}`);
  // The link of the QR code fills it in; typed wrong it is refused and said so.
  assert.equal(await page.getByLabel("Code").inputValue(), code);
  await accessible(page, "door");
  await shot(page, "phone-door");
  await page.getByLabel("Code").fill(code === "000000" ? "000001" : "000000");
  await page.getByRole("button", { name: "Enter code" }).tap();
  await page.getByRole("alert").getByText("That is not the code.").waitFor();
  await shot(page, "phone-door-wrong");
  assert.equal((await page.request.get(`${here.outside}/api/jobs`)).status(), 401);

  await page.getByLabel("Code").fill(code);
  await page.getByRole("button", { name: "Enter code" }).tap();
  await page.getByRole("button", { name: "Done" }).waitFor();
  assert.equal((await page.request.get(`${here.outside}/api/jobs`)).status(), 200);
  // It is used up: another device needs the next one, which only this machine is told.
  assert.notEqual(await here.code(), code);
  const other = await openPage(here.browser, here.outside, { size: "phone" });
  await other.goto(`${here.outside}/?code=${code}`);
  await other.getByRole("button", { name: "Enter code" }).tap();
  await other.getByRole("alert").getByText("That is not the code.").waitFor();
  const told = await other.request.get(`${here.outside}/api/about`).then((answer) => answer.json());
  assert.deepEqual([told.code, told.inside], [null, false]);
  assert.deepEqual(page.troubles, []);
});

test("over plain http the screen is kept on by a picture, ticks are safe, and the page says what cannot be had", { skip }, async () => {
  const page = await openPage(here.browser, here.outside, { size: "phone" });
  await page.goto(`${here.outside}/bench/camper-bench?code=${await here.code()}`);
  await page.getByRole("button", { name: "Enter code" }).tap();
  await page.getByText("Touch the page once to keep the screen on").waitFor();
  assert.equal(await page.evaluate(() => isSecureContext), false);
  await page.getByText("at this address it cannot be opened again without the network").waitFor();
  await page.getByRole("button", { name: "Next" }).tap();
  await page.getByText("The screen is kept on").waitFor();
  const plays = await page.locator("video").evaluate((video) => !video.paused && video.muted && video.videoWidth > 0 && video.offsetWidth > 0);
  assert.ok(plays, "the picture plays, mute, where the browser sees it");
  await accessible(page, "bench over http");
  await shot(page, "phone-bench-http");

  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Done" }).tap();
  await page.getByText("1 stored on this device, to be sent").waitFor();
  await page.context().setOffline(false);
  await page.getByText("All sent").waitFor();
  const { entries } = await fetch(`${here.server.url}/api/jobs/camper-bench/build`).then((answer) => answer.json());
  assert.equal(entries.length, 1);
  assert.deepEqual(page.troubles, []);
});
