// The bench view: with a network that dies ticks and notes are kept and sent once when it is back; a job
// that was changed, broken or deleted since is told; two devices and two tabs know of each other.

import assert from "node:assert/strict";
import { test } from "node:test";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { accessible, around, openPage, putExample, shot } from "./harness.mjs";

const here = around((folder) => putExample(folder, "camper-bench"));
/** Long enough for a few polls. */
const SOON = { timeout: 15_000 };

/** A job of the test's own at the bench of a phone. */
async function atBench(name, context) {
  putExample(here.server.folder, "camper-bench", name);
  const page = context ? await context.newPage() : await openPage(here.browser, here.server.url, { size: "phone" });
  await page.goto(`${here.server.url}/bench/${name}`);
  await page.getByRole("button", { name: "Done" }).waitFor();
  return page;
}

function change(name, from, to) {
  const path = join(here.server.folder, `${name}.job.toml`);
  const text = readFileSync(path, "utf8");
  assert.ok(text.includes(from), from);
  writeFileSync(path, text.replace(from, to));
}

/** Has the page poll now, as when the network comes back. */
const ask = (page) => page.evaluate(() => void dispatchEvent(new Event("online")));
const inList = async (page, text) => {
  const open = page.getByRole("button", { name: /All steps/ });
  if ((await open.getAttribute("aria-expanded")) === "false") await open.click();
  return page.locator(".step-list button", { hasText: text });
};
const entriesOf = (name) => fetch(`${here.server.url}/api/jobs/${name}/build`).then((answer) => answer.json()).then(({ entries }) => entries);
const note = async (page, text) => {
  await page.getByLabel("Changes, measurements, trials").fill(text);
  await page.getByRole("button", { name: "Save the note" }).click();
};

test("ticks and notes survive a dead network", async () => {
  const page = await openPage(here.browser, here.server.url, { size: "phone" });
  await page.goto(`${here.server.url}/bench/camper-bench`);
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByText("All sent").waitFor();
  await page.evaluate(() => navigator.serviceWorker.ready);
  await page.waitForFunction(async () => {
    const kept = await caches.open("brimful-page");
    return (await kept.match("/")) && (await kept.keys()).length > 3;
  });

  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByLabel("Changes, measurements, trials").fill("Gun ran cool, 310 °C");
  await page.getByRole("button", { name: "Save the note" }).click();
  await page.getByText("2 stored on this device").waitFor();
  await shot(page, "phone-bench-offline");

  // The phone is put down and picked up again, still with no network.
  await page.reload();
  await page.getByText("2 stored on this device").waitFor();
  await page.getByText("Gun ran cool").waitFor();

  await page.context().setOffline(false);
  await page.getByText("All sent").waitFor({ timeout: 15_000 });
  const { entries } = await fetch(`${here.server.url}/api/jobs/camper-bench/build`).then((answer) => answer.json());
  assert.deepEqual(entries.map((entry) => entry.kind), ["tick", "tick", "note"]);
  assert.equal(new Set(entries.map((entry) => entry.client_id)).size, 3);
  assert.equal(entries[2].value, "Gun ran cool, 310 °C");
});

test("on a network that does not answer the stored steps are shown", async () => {
  const page = await atBench("swallowed");
  await page.waitForFunction(() => localStorage.getItem("brimful.steps/swallowed") !== null);
  await page.route("**/api/**", () => undefined);
  await page.reload();
  await page.getByRole("button", { name: "Done" }).waitFor();
  await page.unroute("**/api/**");
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
  await page.getByRole("button", { name: "Start", exact: true }).click();
  await next.click();
  await page.waitForTimeout(2100);
  await page.getByRole("button", { name: "◀ Back" }).click();
  const left = await timer.innerText();
  const seconds = (shown) => shown.split(":").reduce((sum, part) => sum * 60 + Number(part), 0);
  const gone = seconds(whole) - seconds(left);
  assert.ok(gone >= 1 && gone <= 5, `${whole} then ${left}`);
});

test("a job that is broken, or cannot be built, is told at the top in the server's words", async () => {
  const page = await atBench("spoilt");
  await page.getByRole("alert").waitFor({ state: "detached" });
  change("spoilt", "[job]", "[job");
  await page.reload();
  await page.getByRole("alert").filter({ hasText: "These steps are as of" }).getByText("this is not TOML").waitFor();
  await accessible(page, "bench of a broken job");
  await shot(page, "phone-bench-broken");

  change("spoilt", "[job", "[job]");
  await ask(page);
  await page.getByRole("alert").waitFor({ state: "detached", ...SOON });
  change("spoilt", "thickness = 8\n\n[liquid]", "thickness = 300\n\n[liquid]");
  await ask(page);
  await page.getByRole("alert").getByText("no room is left inside").waitFor(SOON);

  // A device that has no steps of it says why, and shows them by itself once they can be had.
  const other = await openPage(here.browser, here.server.url, { size: "phone" });
  await other.goto(`${here.server.url}/bench/spoilt`);
  await other.getByRole("status").getByText("no room is left inside").waitFor();
  change("spoilt", "thickness = 300", "thickness = 8");
  await other.getByRole("button", { name: "Done" }).waitFor(SOON);
  await other.goto(`${here.server.url}/bench/nowhere`);
  await other.getByText("There is no job called").waitFor();
  assert.deepEqual([...page.troubles, ...other.troubles], []);
});

test("an open page notices that the design was changed, and a tick of a step that became another does not count", async () => {
  const page = await atBench("redone");
  for (const step of ["Angle blocks", "Open the edges", "Set floor", "Set middle baffle", "Set right", "Tack right"]) {
    await page.getByRole("button", { name: "Done" }).click();
    await page.getByRole("heading", { level: 2, name: step }).waitFor();
  }
  await page.getByText("All sent").waitFor();
  change("redone", "at = [880, 45]", "at = [860, 45]");
  await page.getByRole("alert").getByText("The design was changed").waitFor(SOON);
  await page.getByRole("heading", { level: 2, name: "Tack right" }).waitFor();
  await accessible(page, "bench, design changed");
  await shot(page, "phone-bench-changed");
  await page.getByRole("button", { name: "Understood" }).click();
  await page.getByRole("alert").waitFor({ state: "detached" });

  const before = "Ticked before the job was changed";
  for (const same of ["Weld two off-cuts", "Set floor", "Set middle baffle"]) {
    const text = await (await inList(page, same)).innerText();
    assert.ok(text.includes("✓") && !text.includes(before), text);
  }
  const right = await inList(page, "Set right");
  assert.ok((await right.innerText()).includes(before) && !(await right.innerText()).includes("✓"));
  await shot(page, "phone-bench-changed-steps");
  await right.click();
  await page.getByText(before).waitFor();
  await page.getByRole("button", { name: "Done", exact: true }).click();
  assert.equal(await (await inList(page, "Set right")).innerText().then((text) => text.includes(before)), false);
  assert.deepEqual(page.troubles, []);
});

test("ticks and notes of another device come by themselves", async () => {
  const one = await atBench("shared");
  const two = await atBench("shared");
  await note(two, "Rod was damp");
  await two.getByRole("button", { name: "Done" }).click();
  await one.getByText("Rod was damp").waitFor(SOON);
  await one.getByRole("button", { name: "Remove the tick" }).waitFor(SOON);
});

test("two tabs of a browser lose nothing of each other's, and each entry is kept once", async () => {
  const one = await atBench("tabs");
  const two = await atBench("tabs", one.context());
  await one.context().setOffline(true);
  await note(one, "from the first");
  await note(two, "from the second");
  await note(one, "again from the first");
  await one.getByText("3 stored on this device").waitFor();
  await two.getByText("3 stored on this device").waitFor();
  await one.context().setOffline(false);
  await one.getByText("All sent").waitFor(SOON);
  await two.getByText("All sent").waitFor(SOON);
  const kept = await entriesOf("tabs");
  assert.deepEqual(kept.map(({ value }) => value), ["from the first", "from the second", "again from the first"]);
});

test("a tick taken back is not put again by an older one that comes late, whatever the clocks say", async () => {
  const page = await atBench("late");
  // A device whose clock is an hour ahead has ticked the first step.
  const [{ id }] = (await fetch(`${here.server.url}/api/jobs/late/bench`).then((answer) => answer.json())).steps;
  const send = (entry) =>
    fetch(`${here.server.url}/api/jobs/late/build/entries`, { method: "POST", headers: { "Content-Type": "application/json" }, body: JSON.stringify([{ step: id, value: "", ...entry }]) });
  await send({ client_id: "ahead", kind: "tick", made_s: Date.now() / 1000 + 3600 });
  await ask(page);
  await page.getByText("Ticked before the job was changed").first().waitFor(SOON);
  const tick = page.getByRole("button", { name: "Done" });
  await tick.click();
  await page.getByRole("button", { name: "Back" }).first().click();
  await page.getByRole("button", { name: /Remove the tick/ }).click();
  await page.getByRole("button", { name: "Done", exact: true }).waitFor();
  await page.getByText("All sent").waitFor(SOON);
  await send({ client_id: "late", kind: "tick", made_s: Date.now() / 1000 - 60 });
  await ask(page);
  await page.waitForFunction(() => localStorage.getItem("brimful.sent/late")?.includes('"late"'));
  await page.getByRole("button", { name: "Done", exact: true }).waitFor();
});

test("where a device has no room left its ticks are sent, and that it must be left open is said", async () => {
  const page = await atBench("full");
  await page.evaluate(() => {
    Storage.prototype.setItem = () => {
      throw new DOMException("full", "QuotaExceededError");
    };
  });
  await page.context().setOffline(true);
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByText("This device has no space left").waitFor();
  await page.context().setOffline(false);
  await ask(page);
  await page.getByText("All sent").waitFor(SOON);
  assert.equal((await entriesOf("full")).length, 1);
});

test("an entry that the server cannot take is told and holds up no other", async () => {
  const page = await atBench("refused");
  await page.evaluate(() => {
    const entry = { client_id: "long", step: "x".repeat(4001), kind: "tick", value: "", made_s: 1 };
    localStorage.setItem("brimful.waiting/refused/long", JSON.stringify(entry));
  });
  await page.reload();
  await note(page, "goes through");
  await page.getByText("1 stored on this device; the server refuses: An entry needs a name").waitFor();
  assert.deepEqual((await entriesOf("refused")).map(({ value }) => value), ["goes through"]);
});

test("for a job that was deleted it says so, and sends what is kept once the job is back", async () => {
  const page = await atBench("deleted");
  rmSync(join(here.server.folder, "deleted.job.toml"));
  await page.getByRole("button", { name: "Done" }).click();
  await page.getByRole("status").getByText("the server refuses: There is no job called").waitFor();
  await ask(page);
  await page.getByRole("alert").getByText("There is no job called").waitFor(SOON);
  putExample(here.server.folder, "camper-bench", "deleted");
  await ask(page);
  await page.getByText("All sent").waitFor(SOON);
  await page.getByRole("alert").waitFor({ state: "detached", ...SOON });
  assert.equal((await entriesOf("deleted")).length, 1);
});

test("what is said of the network turns with the network, also where nothing waits", async () => {
  const page = await atBench("network");
  await page.context().setOffline(true);
  await page.getByText("The server cannot be reached. Steps as of").waitFor(SOON);
  await page.context().setOffline(false);
  await page.getByText("The server cannot be reached").waitFor({ state: "detached", ...SOON });
});

test("nothing is ticked while the list of steps is open", async () => {
  const page = await atBench("listed");
  await page.getByRole("button", { name: /All steps/ }).click();
  await page.locator(".step-list").waitFor();
  assert.equal(await page.getByRole("button", { name: "Done" }).count(), 0);
  await page.getByRole("button", { name: /All steps/ }).click();
  await page.getByRole("button", { name: "Done" }).waitFor();
});

test("long words of a person make nothing wider than the screen", async () => {
  const long = "x".repeat(300);
  putExample(here.server.folder, "camper-bench", "long");
  change("long", 'name = "camper bench"', `name = "${long}"`);
  change("long", 'name = "middle baffle"', `name = "${long}"`);
  const page = await openPage(here.browser, here.server.url, { size: "phone" });
  await page.goto(`${here.server.url}/bench/long`);
  await note(page, long);
  await page.getByText("All sent").waitFor();
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
  assert.equal(await wide(), 390, "a step with a note");
  await shot(page, "phone-bench-long");
  await page.getByRole("button", { name: /All steps/ }).click();
  await page.locator(".step-list").waitFor();
  assert.equal(await wide(), 390, "all steps");
});

test("a half-typed note waits at its step", async () => {
  const page = await atBench("draft");
  const box = page.getByLabel("Changes, measurements, trials");
  await box.fill("Half a no");
  await page.getByRole("button", { name: "Next" }).click();
  assert.equal(await box.inputValue(), "");
  await page.getByRole("button", { name: "◀ Back" }).click();
  assert.equal(await box.inputValue(), "Half a no");
  await page.reload();
  await page.getByRole("button", { name: "Save the note" }).click();
  await page.getByText("Half a no").waitFor();
  await page.reload();
  await page.getByText("Half a no").waitFor();
  assert.equal(await box.inputValue(), "");
  assert.equal((await entriesOf("draft")).length, 1);
});

test("a wait that runs is shown at every other step, leads back, and is started over only when asked twice", async () => {
  const page = await atBench("waits");
  await page.clock.install();
  await page.reload();
  const timer = page.getByRole("timer");
  const whole = await timer.innerText();
  await page.getByRole("button", { name: "Start", exact: true }).click();
  await page.getByRole("button", { name: "Next" }).click();
  await page.getByRole("button", { name: "Next" }).click();
  const running = page.getByRole("button", { name: /Test strips .* left/ });
  await running.waitFor();
  await page.waitForFunction((text) => !document.querySelector(".waits").textContent.includes(text), whole);
  assert.ok((await running.boundingBox()).height >= 56);
  await accessible(page, "bench, a wait runs");
  await shot(page, "phone-bench-wait");
  await running.click();
  await page.getByRole("heading", { level: 2, name: "Test strips" }).waitFor();
  await page.getByRole("button", { name: "Restart", exact: true }).click();
  await page.getByRole("button", { name: "Cancel" }).click();
  assert.notEqual(await timer.innerText(), whole);
  await page.getByRole("button", { name: "Restart", exact: true }).click();
  await shot(page, "phone-bench-start-over");
  await page.getByRole("button", { name: "Restart the timer" }).click();
  assert.equal(await timer.innerText(), whole);

  // Over, it stays said until somebody looks at its step.
  await page.getByRole("button", { name: "Next" }).click();
  await page.clock.fastForward("01:00:05");
  await page.getByRole("button", { name: /Test strips .*The wait is over/ }).click();
  await timer.getByText("The wait is over").waitFor();
  await page.getByRole("button", { name: "Next" }).click();
  assert.equal(await page.getByRole("button", { name: /Test strips/ }).count(), 0);
});

test("it says how many findings stop the build", async () => {
  const page = await atBench("stopped");
  const { findings } = await fetch(`${here.server.url}/api/jobs/stopped/plan?depth=best`).then((answer) => answer.json());
  const stops = findings.filter(({ grade }) => grade === "stop").length;
  assert.ok(stops > 0);
  await page.getByText(stops === 1 ? /Do not build yet: 1 finding stops it/ : `Do not build yet: ${stops} findings stop it`).waitFor();
});
