// The page in a real Chromium: node window.mjs TOOLS QUILLET FOLDER PICTURES, where playwright-core is
// installed, the program, the built page, and where the screenshots go.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { serve } from "./serve.mjs";

const [tools, program, folder, pictures] = process.argv.slice(2);
const { chromium } = createRequire(join(tools, "package.json"))("playwright-core");
const here = dirname(fileURLToPath(import.meta.url));
const examples = join(here, "../../../examples");
const axe = readFileSync(join(here, "../node_modules/axe-core/axe.min.js"), "utf8");
mkdirSync(pictures, { recursive: true });

/** What the terminal finds in a file with these texts beside it: rule, message and line. */
function terminal(file, texts) {
  const work = mkdtempSync(join(tmpdir(), "quillet-page-"));
  for (const [name, text] of Object.entries(texts)) {
    writeFileSync(join(work, name), text);
  }
  let said;
  try {
    said = execFileSync(program, ["check", file, "--format", "json"], { cwd: work, encoding: "utf8" });
  } catch (error) {
    said = error.stdout;
  }
  rmSync(work, { recursive: true });
  return JSON.parse(said).findings.map((it) => [it.rule, it.severity, it.message]);
}

const { address, end } = await serve(folder);
const browser = await chromium.launch({
  executablePath: "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync", "--disable-background-networking", "--disable-component-update"],
});
const text = (name) => readFileSync(join(examples, name), "utf8");
let passed = 0;
const ok = (what) => {
  passed += 1;
  console.log(`ok - ${what}`);
};

/** A page of a browser that has kept nothing yet. */
async function fresh(about = {}) {
  const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, acceptDownloads: true, ...about });
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  const bad = [];
  page.on("request", (it) => {
    if (!it.url().startsWith(address) && !/^(data|blob):/.test(it.url())) {
      bad.push(it.url());
    }
  });
  page.on("console", (it) => it.type() === "error" && bad.push(it.text()));
  page.on("pageerror", (it) => bad.push(String(it)));
  await page.goto(address + (about.hash ?? ""));
  await page.waitForSelector("body[data-ready]");
  return { context, page, bad };
}

/** Puts a text in the place of the whole, as from the clipboard. */
async function write(page, whole) {
  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+a");
  await page.locator(".cm-content").evaluate((element, text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", text);
    element.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, whole);
}

const count = (page) => page.locator("#count");
const says = (page, what) => page.waitForFunction((it) => document.querySelector("#count")?.textContent === it, what);

try {
  const { context, page, bad } = await fresh();
  await says(page, "Nothing found");
  await page.waitForSelector("#drawing img");
  ok("Heron is clean and drawn");
  await page.screenshot({ path: join(pictures, "heron.png") });

  const slip = text("heron.quillet").replace("drill 12.2 ", "drill 13.7 ");
  const expected = terminal("heron.quillet", { "heron.quillet": slip, "saltings.quillet": text("saltings.quillet"), "bought.quillet": text("bought.quillet") });
  await write(page, slip);
  await page.waitForFunction((many) => document.querySelectorAll("#found li").length === many, expected.length);
  const found = await page.locator("#found li").evaluateAll((all) =>
    all.map((it) => [it.querySelector(".rule").textContent, it.className, it.querySelector(".place > span").textContent.split(" ").slice(1).join(" ")]),
  );
  assert.deepEqual(found, expected);
  ok(`a slip is found as the terminal finds it: ${await count(page).textContent()}`);
  await page.screenshot({ path: join(pictures, "slip.png") });

  await page.locator("#found .place").first().click();
  await page.keyboard.press("Control+.");
  await page.locator("dialog[open]").waitFor();
  await page.screenshot({ path: join(pictures, "cures.png") });
  await page.locator("dialog .choices button").first().click();
  await page.waitForFunction((many) => document.querySelectorAll("#found li").length < many, expected.length);
  ok("a cure cures");

  // What a rule says comes from the worker, so the dialog opens a moment after the click.
  if (await page.locator("#found .rule").count()) {
    await page.locator("#found .rule").first().click();
    await page.locator("dialog[open]").waitFor();
    await page.keyboard.press("Escape");
    await page.locator("dialog[open]").waitFor({ state: "detached" });
  }
  await write(page, text("heron.quillet"));
  await says(page, "Nothing found");

  await page.locator("#do-sheet").click();
  const [sheet] = await Promise.all([page.waitForEvent("download"), page.locator("dialog button", { hasText: "A4" }).click()]);
  const pdf = readFileSync(await sheet.path());
  // The cursor is at the end of the text, in the last pen.
  assert.equal(sheet.suggestedFilename(), "heron-ida.pdf");
  assert.equal(pdf.subarray(0, 5).toString(), "%PDF-");
  ok("the sheet is saved");

  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+Home");
  for (const _ of "123456789012") {
    await page.keyboard.press("ArrowDown");
  }
  await page.keyboard.press("End");
  await page.keyboard.press("Enter");
  await page.keyboard.type("wa", { delay: 60 });
  await page.keyboard.press("Control+Space");
  await page.locator(".cm-tooltip-autocomplete li").first().waitFor();
  await page.screenshot({ path: join(pictures, "completion.png") });
  ok("words are offered");
  await page.keyboard.press("Escape");
  await write(page, text("heron.quillet"));
  await says(page, "Nothing found");

  assert.deepEqual(bad, []);
  for (const [width, dark] of [[1280, false], [1280, true], [390, false], [390, true]]) {
    await page.setViewportSize({ width, height: 860 });
    await page.emulateMedia({ colorScheme: dark ? "dark" : "light" });
    await page.waitForTimeout(300);
    await page.screenshot({ path: join(pictures, `${width}-${dark ? "dark" : "light"}.png`), fullPage: width < 720 });
    // The page's own policy keeps such a script out; it comes in by the debugger.
    await page.evaluate(axe);
    const faults = await page.evaluate(() => axe.run(document, { runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"] }));
    const said = faults.violations.map((it) => `${it.id}: ${it.nodes.map((node) => node.target).join(" ")}`);
    assert.deepEqual(said, []);
    ok(`${width} px ${dark ? "dark" : "light"} has nothing that keeps anyone out`);
  }
  await page.setViewportSize({ width: 1280, height: 860 });

  await page.waitForTimeout(600);
  await page.waitForFunction(() => navigator.serviceWorker.controller !== null);
  await context.setOffline(true);
  await page.reload();
  await page.waitForSelector("#drawing img");
  await says(page, "Nothing found");
  await write(page, slip);
  await page.waitForFunction((many) => document.querySelectorAll("#found li").length === many, expected.length);
  await context.setOffline(false);
  ok("it works without a network");

  await page.waitForTimeout(600);
  await page.reload();
  await page.waitForSelector("#found li");
  assert.ok((await page.locator(".cm-content").textContent()).includes("13.7"));
  ok("what was typed is kept");

  await page.evaluate(() => dispatchEvent(new Event("quillet-kill")));
  await page.waitForFunction(() => document.querySelector("#said").textContent.includes("the text is kept"));
  await write(page, text("heron.quillet"));
  await says(page, "Nothing found");
  await page.evaluate(() => dispatchEvent(new Event("quillet-kill")));
  await page.waitForFunction(() => document.querySelector("#said").textContent.includes("stays stopped"));
  ok("a checker that dies is started again, once");

  const second = await context.newPage();
  await second.goto(address);
  await second.waitForSelector("#second:not([hidden])");
  ok("a second tab only reads, and says so");
  await second.close();
  assert.deepEqual(bad, []);
  ok("nothing left the page, and its policy had nothing to say");
  await context.close();

  const linking = await fresh();
  await linking.page.locator("#do-link").click();
  await linking.page.waitForFunction(() => location.hash.startsWith("#q1="));
  const hash = await linking.page.evaluate(() => location.hash);
  console.log(`a link of Heron with what it uses has ${hash.length} characters`);
  await linking.context.close();
  const lent = await fresh({ hash });
  await lent.page.waitForFunction(() => document.querySelector("#count").textContent === "Nothing found");
  await lent.context.close();
  for (const [damaged, said] of [["#q1=AAAA", "damaged"], [hash.slice(0, -40), "damaged"], ["#q1=%%%", "damaged"], ["#q2=AAAA", "newer"], [`#q1=${"A".repeat(40_000)}`, "damaged"]]) {
    const it = await fresh({ hash: damaged });
    await it.page.waitForFunction((words) => document.querySelector("#said").textContent.includes(words), said);
    await says(it.page, "Nothing found");
    assert.deepEqual(it.bad, []);
    await it.context.close();
  }
  ok("links hold the files; damaged, huge and newer ones open nothing");
  const moving = await fresh();
  await moving.page.locator("#do-export").click();
  const [archive] = await Promise.all([
    moving.page.waitForEvent("download"),
    moving.page.locator("dialog button", { hasText: "All files" }).click(),
  ]);
  const zip = readFileSync(await archive.path());
  await moving.page.locator("#do-remove").click();
  await moving.page.locator("dialog button", { hasText: "Remove it" }).click();
  await moving.page.waitForFunction(() => ![...document.querySelectorAll("#files button")].some((it) => it.textContent === "heron"));
  await moving.page.locator("#chosen").setInputFiles({ name: "pens.zip", mimeType: "application/zip", buffer: zip });
  await moving.page.waitForFunction(() => [...document.querySelectorAll("#files button")].some((it) => it.textContent === "heron"));
  ok("what is exported can be imported again");
  await moving.page.locator("#chosen").setInputFiles({ name: "heron.quillet", mimeType: "text/plain", buffer: Buffer.from("-- mine\r\n") });
  await moving.page.locator("dialog button", { hasText: "heron-2.quillet" }).click();
  await moving.page.waitForFunction(() => document.querySelector(".cm-content").textContent.includes("-- mine"));
  ok("a name that is taken is asked about, and both are kept");
  for (const name of ["<b>tern<b>.quillet", "..quillet", "tern.txt"]) {
    await moving.page.locator("#chosen").setInputFiles({ name, mimeType: "text/plain", buffer: Buffer.from("x") });
    await moving.page.waitForFunction((it) => document.querySelector("#said").textContent.startsWith(`${it} is no name`), name);
  }
  const damaged = Buffer.from(zip);
  damaged.fill(0xff, 200, 5000);
  await moving.page.locator("#chosen").setInputFiles({ name: "bad.zip", mimeType: "application/zip", buffer: damaged });
  await moving.page.waitForFunction(() => document.querySelector("#said").textContent.includes("damaged: nothing was imported"));
  assert.deepEqual(moving.bad, []);
  ok("strange names and damaged archives are refused in a sentence");
  await moving.context.close();

  const refusing = await browser.newContext();
  await refusing.addInitScript(() => Object.defineProperty(window, "indexedDB", { get: () => { throw new DOMException("no", "SecurityError"); } }));
  const bare = await refusing.newPage();
  await bare.goto(address);
  await bare.waitForSelector("#refused:not([hidden])");
  await says(bare, "Nothing found");
  ok("a browser that keeps nothing is said to, and works");
  await refusing.close();
  console.log(`the page: ${passed} passed, 0 failed`);
} catch (error) {
  for (const context of browser.contexts()) {
    for (const page of context.pages()) {
      await page.screenshot({ path: join(pictures, "failed.png") }).catch(() => undefined);
    }
  }
  console.log(`not ok - ${error.stack}`);
  process.exitCode = 1;
} finally {
  await browser.close();
  end();
}
