// Quillet in a real Visual Studio Code window: code-server on loopback, looked at in Chromium.
//
// node window.mjs TOOLS QUILLET PICTURES: where code-server and playwright-core are installed,
// the program, and where the screenshots go. The extension that is installed carries the program itself:
// no setting says where it is, and none is on the PATH.

import assert from "node:assert/strict";
import { execFileSync, spawn } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { createServer } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const [tools, program, pictures] = process.argv.slice(2);
const { chromium } = createRequire(join(tools, "package.json"))("playwright-core");
const here = fileURLToPath(new URL(".", import.meta.url));
const extension = join(here, "../..");
const work = mkdtempSync(join(tmpdir(), "quillet-window-"));
const [user, extensions, pens] = ["user", "extensions", "pens"].map((name) => join(work, name));
const codeServer = join(tools, "node_modules/.bin/code-server");
const places = ["--user-data-dir", user, "--extensions-dir", extensions];

/** What the browser looks at when the probe has come so far. */
const looks = {
  async hover(page) {
    const hover = page.locator(".monaco-hover .hover-contents", { hasText: "M13" }).first();
    await hover.waitFor({ state: "visible" });
  },
  async picture(page) {
    // Not that of the hover before, which may still be there.
    const hover = page.locator(".monaco-hover .hover-contents", { hasText: "greatest" }).first();
    const image = hover.locator("img").first();
    await image.waitFor({ state: "visible" });
    const drawn = await image.evaluate((it) => it.complete && it.naturalWidth > 0);
    assert.ok(drawn, "the part is drawn");
  },
  async squiggle(page) {
    await page.locator(".squiggly-error").first().waitFor({ state: "visible" });
  },
  async preview(page, { title }) {
    const frame = await inner(page, "h1", title);
    const image = frame.locator("figure img").first();
    await image.waitFor({ state: "visible" });
    const drawn = await image.evaluate((it) => it.complete && it.naturalWidth > 0);
    assert.ok(drawn, "the picture is drawn");
    assert.ok((await frame.locator("tr").count()) >= 2, "measures stand under it");
    assert.equal(await frame.locator("script").count(), 0);
    const policy = await frame.locator("meta[http-equiv]").getAttribute("content");
    assert.match(policy, /^default-src 'none'/);
  },
  async parts(page) {
    const cap = row(page, "cap");
    await cap.waitFor({ state: "visible" });
    assert.match(await cap.innerText(), /cap\s*\d+\.\d g/);
    assert.match(await row(page, "heron").first().innerText(), /heron\s*.*mm/);
    await view(page).getByText("Nothing found.").waitFor({ state: "visible" });
  },
  async thin(page) {
    const found = row(page, /wall between/).first();
    await found.waitFor({ state: "visible" });
    assert.equal(await view(page).getByText("Nothing found.").count(), 0);
    await found.click();
    await page.waitForTimeout(500);
  },
  async room(page) {
    const asked = page.locator(".quick-input-widget", { hasText: "How far a number may move" });
    await asked.waitFor({ state: "visible" });
    const told = await asked.locator(".quick-input-list .monaco-list-row").first().innerText();
    // As `quillet room` says.
    const [number] = JSON.parse(execFileSync(program, ["room", join(pens, "heron.quillet"), "--of", "cap.length", "--format", "json"], { encoding: "utf8" })).numbers;
    const [[from, to]] = number.stretches;
    for (const it of ["cap.length", `${from} to ${to}`, number.below.rule, number.above.rule]) {
      assert.ok(told.includes(it), `${it} in ${told}`);
    }
  },
  sheet: declined,
  async compare(page) {
    const asked = page.locator(".quick-input-widget", { hasText: "Compare with" });
    await asked.waitFor({ state: "visible" });
    assert.equal(await asked.locator(".quick-input-box input").inputValue(), "HEAD");
  },
  compared: declined,
  async missing(page) {
    const toast = page.locator(".notification-toast", { hasText: "Quillet cannot check your pens" });
    await toast.first().waitFor({ state: "visible" });
    await inner(page, "p", "Nothing can be drawn");
    await view(page).getByText("Quillet is not checking").waitFor({ state: "visible" });
  },
  async knot(page) {
    await page.locator(".squiggly-warning").first().waitFor({ state: "visible" });
  },
  async walkthrough(page) {
    await page.getByText("Spoil it on purpose").first().waitFor({ state: "visible" });
    await inner(page, "p", "A pen is written as");
  },
  async end() {},
};

/** The view of the parts. */
function view(page) {
  return page.locator(".pane", { has: page.locator(".pane-header", { hasText: /^Pen/ }) });
}

/** The rows of that view which begin with a name. */
function row(page, name) {
  return view(page).locator(".monaco-list-row", { has: page.locator(".label-name", { hasText: typeof name === "string" ? new RegExp(`^${name}$`) : name }) });
}

/** A question whether a page may be opened outside is answered with no. */
async function declined(page) {
  await page.waitForTimeout(500);
  await page.keyboard.press("Escape");
}

/** The page within a webview's two frames that says a text. */
async function inner(page, element, text) {
  for (let tries = 0; tries < 200; tries += 1) {
    for (const frame of page.frames()) {
      const found = await frame.locator(element, { hasText: text }).count().catch(() => 0);
      if (found > 0) {
        return frame;
      }
    }
    await page.waitForTimeout(50);
  }
  throw new Error(`no page says ${text}`);
}

/** What lies in a folder becomes the first commit of a repository of its own. */
function keep(folder) {
  const who = ["-c", "user.name=bench", "-c", "user.email=bench@estuary.invalid"];
  for (const asked of [["init", "-q"], ["add", "--", "*.quillet"], [...who, "commit", "-q", "-m", "As cut"]]) {
    execFileSync("git", asked, { cwd: folder });
  }
}

function prepare() {
  mkdirSync(join(user, "User"), { recursive: true });
  mkdirSync(join(pens, ".probe"), { recursive: true });
  mkdirSync(pictures, { recursive: true });
  cpSync(join(here, "../../../../examples"), pens, { recursive: true });
  writeFileSync(join(pens, ".probe/begin"), "");
  keep(pens);
  writeFileSync(join(user, "config.yaml"), "");
  const settings = {
    "quillet.pictures": true,
    "workbench.startupEditor": "none",
    "workbench.tips.enabled": false,
    "workbench.secondarySideBar.defaultVisibility": "hidden",
    "extensions.autoUpdate": false,
    "extensions.autoCheckUpdates": false,
    "chat.disableAIFeatures": true,
    "git.enabled": false,
    "security.workspace.trust.enabled": false,
    "telemetry.telemetryLevel": "off",
    "update.mode": "none",
  };
  writeFileSync(join(user, "User/settings.json"), JSON.stringify(settings));
  const vsce = join(extension, "node_modules/.bin/vsce");
  const probe = join(work, "probe.vsix");
  execFileSync(vsce, ["package", "--no-dependencies", "--allow-missing-repository", "--skip-license", "--out", probe], {
    cwd: join(here, "probe"),
    encoding: "utf8",
  });
  const install = [join(extension, "dist/quillet-here.vsix"), probe].flatMap((it) => ["--install-extension", it]);
  execFileSync(codeServer, ["--config", join(user, "config.yaml"), ...places, ...install], { encoding: "utf8" });
}

/** This environment, but for what folders of its PATH hold a quillet, and a home that holds none. */
function withoutProgram() {
  const path = process.env.PATH.split(":").filter((folder) => !existsSync(join(folder, "quillet")));
  return { ...process.env, PATH: path.join(":"), HOME: work };
}

async function freePort() {
  const server = createServer();
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  const { port } = server.address();
  await new Promise((closed) => server.close(closed));
  return port;
}

async function serve(port) {
  const asked = [
    "--config", join(user, "config.yaml"), "--bind-addr", `127.0.0.1:${port}`, "--auth", "none",
    "--disable-telemetry", "--disable-update-check", "--disable-workspace-trust",
    "--reconnection-grace-time", "3", ...places,
  ];
  const server = spawn(codeServer, asked, { stdio: "ignore", detached: true, env: withoutProgram() });
  for (let tries = 0; tries < 300; tries += 1) {
    if (await fetch(`http://127.0.0.1:${port}/healthz`).then((it) => it.ok, () => false)) {
      return server;
    }
    await new Promise((again) => setTimeout(again, 100));
  }
  stop(server);
  throw new Error("the window's server did not come up");
}

/** Ends the server and the processes it started. */
function stop(server) {
  try {
    process.kill(-server.pid);
  } catch {
    // It has ended already.
  }
}

async function follow(page) {
  const seen = [];
  for (let number = 0; seen.at(-1) !== "end"; number += 1) {
    const place = join(pens, ".probe", String(number));
    const end = Date.now() + 90_000;
    while (!existsSync(`${place}.json`)) {
      assert.ok(Date.now() < end, `nothing came after ${seen.at(-1)}`);
      await page.waitForTimeout(50);
    }
    const told = JSON.parse(readFileSync(`${place}.json`, "utf8"));
    assert.notEqual(told.what, "failed", told.why);
    await looks[told.what](page, told);
    await page.screenshot({ path: join(pictures, `${number}-${told.what}.png`) });
    writeFileSync(`${place}.seen`, "");
    seen.push(told.what);
    console.log(`ok - ${told.what}${told.title ? ` of ${told.title}` : ""}`);
  }
  return seen.length;
}

prepare();
const port = await freePort();
const server = await serve(port);
const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync",
    "--disable-background-networking", "--disable-component-update",
  ],
});
let code = 0;
const page = await browser.newPage({ viewport: { width: 1360, height: 860 } });
page.setDefaultTimeout(30_000);
try {
  await page.goto(`http://127.0.0.1:${port}/?folder=${encodeURIComponent(pens)}`);
  console.log(`the window: ${await follow(page)} passed, 0 failed`);
} catch (error) {
  code = 1;
  await page.screenshot({ path: join(pictures, "failed.png") });
  console.log(`not ok - ${error.stack}`);
} finally {
  await browser.close();
  stop(server);
  rmSync(work, { recursive: true, force: true });
}
process.exit(code);
