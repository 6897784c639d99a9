// A server of our own command over an empty folder, and a real browser that looks at it.
//
//   BRIMFUL  the command to test; target/release/brimful where it is not set
//   SHOTS    a folder for screenshots; tests/page/shots where it is not set

import assert from "node:assert/strict";
import { spawn } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { after, afterEach, before } from "node:test";
import { fileURLToPath } from "node:url";
import { createRequire } from "node:module";
import { chromium } from "playwright-core";

const HERE = dirname(fileURLToPath(import.meta.url));
export const ROOT = join(HERE, "../..");
const COMMAND = process.env.BRIMFUL ?? join(ROOT, "target/release/brimful");
const SHOTS = process.env.SHOTS ?? join(HERE, "shots");
const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

/** A server and a browser for the tests of a file: begun before them, ended after them. */
export function around(setUp = () => {}) {
  const here = {};
  before(async () => {
    [here.server, here.browser] = await Promise.all([serve(), browse()]);
    setUp(here.server.folder);
  });
  // Pages are left as a person leaves them, so that the server drops what they waited for.
  afterEach(async () => {
    for (const context of here.browser.contexts()) {
      await Promise.all(context.pages().map((page) => page.goto("about:blank").catch(() => undefined)));
      await context.close();
    }
  });
  after(async () => {
    await here.browser?.close();
    here.server?.stop();
  });
  return here;
}

export const SIZES = {
  desktop: { width: 1440, height: 900 },
  tablet: { width: 820, height: 1180 },
  phone: { width: 390, height: 844 },
};

/** Starts the command over a folder of its own; answers its address and folder, and how to stop and start it. */
export async function serve(...options) {
  return started(mkdtempSync(join(tmpdir(), "brimful-page-")), await freePort(), options);
}

async function started(folder, port, options) {
  const child = spawn(COMMAND, ["serve", folder, "--port", String(port), ...options], { stdio: ["ignore", "pipe", "ignore"] });
  let said = "";
  child.stdout.on("data", (bytes) => (said += bytes));
  const url = `http://127.0.0.1:${port}`;
  for (let tries = 0; tries < 100; tries++) {
    if (child.exitCode !== null) throw new Error(`${COMMAND} serve left with code ${child.exitCode}`);
    const up = await fetch(`${url}/api/about`).then((answer) => answer.ok).catch(() => false);
    if (up) {
      const kill = () => new Promise((resolve) => (child.once("exit", resolve), child.kill("SIGKILL")));
      return { url, folder, said: () => said, stop: () => child.kill("SIGTERM"), kill, again: () => started(folder, port, options) };
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  child.kill("SIGKILL");
  throw new Error(`${COMMAND} serve does not answer at ${url}`);
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

export function browse() {
  return chromium.launch({
    executablePath: process.env.CHROMIUM ?? "/usr/bin/chromium",
    args: ["--headless", "--no-sandbox", "--disable-gpu", "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader"],
  });
}

/** A page of the given size that fails its test on any error of the page, and on any request to elsewhere. */
export async function openPage(browser, url, { size = "desktop", locale = "en-GB" } = {}) {
  const context = await browser.newContext({ viewport: SIZES[size], locale, reducedMotion: "reduce", acceptDownloads: true, hasTouch: size !== "desktop" });
  const page = await context.newPage();
  const troubles = [];
  page.on("pageerror", (error) => troubles.push(error.message));
  page.on("request", (request) => {
    const asked = new URL(request.url());
    if (asked.protocol.startsWith("http") && asked.origin !== new URL(url).origin) troubles.push(`asked ${asked.origin}`);
  });
  page.troubles = troubles;
  page.setDefaultTimeout(10_000);
  return page;
}

/** A job in the server's folder, from an example of the project. */
/** A job of `tests/jobs`, which are kept as they are for the tests, or else an example. */
export function putExample(folder, example, name = example) {
  const kept = join(ROOT, `tests/jobs/${example}.job.toml`);
  const source = existsSync(kept) ? kept : join(ROOT, `examples/${example}.job.toml`);
  writeFileSync(join(folder, `${name}.job.toml`), readFileSync(source));
  return name;
}

export async function shot(page, name) {
  mkdirSync(SHOTS, { recursive: true });
  await page.screenshot({ path: join(SHOTS, `${name}.png`) });
}

/** Nothing serious by axe-core, the judge of access that is not ours. */
export async function accessible(page, name) {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ["violations"] }));
  const serious = violations.filter(({ impact }) => impact === "serious" || impact === "critical");
  const said = serious.map(({ id, help, nodes }) => `${id}: ${help}\n  ${nodes.slice(0, 4).map((node) => node.html.slice(0, 160)).join("\n  ")}`);
  assert.equal(said.length, 0, `${name}\n${said.join("\n")}`);
}

/** Waits until the whole check of the newest edit is shown. */
export async function wholeChecked(page) {
  await page.getByText("Whole tank checked").waitFor({ timeout: 60_000 });
}

/** A figure in the strip at the top, as it is shown: `112.6 L`. */
export async function figure(page, label) {
  return page.locator(".figures dl div", { has: page.locator("dt", { hasText: new RegExp(`^${label}$`) }) }).locator("dd").innerText();
}
