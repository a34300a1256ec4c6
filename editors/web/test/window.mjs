// The page in a real Chromium: node window.mjs TOOLS QUILLET FOLDER PICTURES, where playwright-core is
// installed, the program, the built page, and where the screenshots go.

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { begun, says, write } from "./browser.mjs";

const [tools, program, folder, pictures] = process.argv.slice(2);
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

const { address, fresh, failed, close } = await begun(tools, folder);
const text = (name) => readFileSync(join(examples, name), "utf8");
let passed = 0;
const ok = (what) => {
  passed += 1;
  console.log(`ok - ${what}`);
};

const count = (page) => page.locator("#count");

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
  // What is chosen stands there as a line that can be read, its first stop marked to be written over.
  for (const [behind, begun, wanted] of [
    ['pen heron "Heron" {', "scr", /^ {2}screw ([\w-]+)\.[\w-]+ into (?!\1\.)[\w-]+\.[\w-]+\b/],
    ["  from mouth {", "thr", /^ {4}thread thread inside to depth\b/],
  ]) {
    const whole = text("heron.quillet").replace(`${behind}\n`, `${behind}\n${" ".repeat(behind.search(/\S/) + 2)}${begun}\n`);
    await write(page, whole);
    await page.waitForFunction(() => document.querySelector("#count")?.textContent !== "Nothing found");
    await page.keyboard.press("Control+Home");
    const row = whole.slice(0, whole.indexOf(` ${begun}\n`)).split("\n").length - 1;
    for (let down = 0; down < row; down += 1) {
      await page.keyboard.press("ArrowDown");
    }
    await page.keyboard.press("End");
    await page.keyboard.press("Control+Space");
    await page.locator(".cm-tooltip-autocomplete li").first().waitFor();
    await page.waitForTimeout(200);
    await page.keyboard.press("Enter");
    // Of the lines in sight the first of this word is the new one.
    const line = async () => (await page.locator(".cm-line").allTextContents()).find((it) => it.startsWith(" ".repeat(behind.search(/\S/) + 2) + begun));
    assert.match(await line(), wanted);
    await page.keyboard.type("tern");
    assert.match(await line(), /^ *(screw|thread) tern (into|inside) /);
  }
  ok("a joint names the faces there are, and no sign of a snippet is left");
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

  // What is typed is kept a moment later.
  await page.waitForTimeout(600);
  await page.reload();
  await says(page, "Nothing found");
  const second = await context.newPage();
  await second.goto(address);
  await second.waitForSelector("#second:not([hidden])");
  await says(second, "Nothing found");
  await second.locator(".cm-content").click();
  await second.keyboard.type("lost");
  assert.ok(!(await second.locator(".cm-content").textContent()).includes("lost"));
  // Nor does what is brought into it take the place of what the first one keeps.
  await second.locator("#chosen").setInputFiles({ name: "heron.quillet", mimeType: "text/plain", buffer: Buffer.from("-- another\n") });
  await second.locator("dialog button", { hasText: "Replace it" }).click();
  await second.waitForTimeout(600);
  await second.close();
  await write(page, slip);
  await page.waitForFunction((many) => document.querySelectorAll("#found li").length === many, expected.length);
  await page.waitForTimeout(600);
  await page.reload();
  await page.waitForSelector("#found li");
  const kept = await page.locator(".cm-content").textContent();
  assert.ok(kept.includes("13.7") && !kept.includes("another"));
  ok("a second tab only reads, and says so; what the first one has is kept");
  assert.deepEqual(bad, []);
  ok("nothing left the page, and its policy had nothing to say");
  await context.close();

  console.log(`the page: ${passed} passed, 0 failed`);
} catch (error) {
  await failed(error, join(pictures, "failed.png"));
} finally {
  await close();
}
