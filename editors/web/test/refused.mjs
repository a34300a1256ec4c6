// What the page is given that is damaged, huge, strange or no longer kept: node refused.mjs TOOLS FOLDER PICTURES,
// as window.mjs. Nothing that the maker has is lost, and a sentence says what was.

import assert from "node:assert/strict";
import { mkdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { deflateRawSync } from "node:zlib";
import { begun, says, write } from "./browser.mjs";

const [tools, folder, pictures] = process.argv.slice(2);
const examples = join(dirname(fileURLToPath(import.meta.url)), "../../../examples");
mkdirSync(pictures, { recursive: true });
const text = (name) => readFileSync(join(examples, name), "utf8");
const slip = text("heron.quillet").replace("drill 12.2 ", "drill 13.7 ");
const { address, browser, fresh, failed, close } = await begun(tools, folder);
let passed = 0;
const ok = (what) => {
  passed += 1;
  console.log(`ok - ${what}`);
};

try {
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
  // The kind of a link, and what it holds, made here as the page makes it.
  const made = (whole) => `#q1=${deflateRawSync(Buffer.from(whole)).toString("base64url")}`;
  const heron = `heron.quillet\0${text("heron.quillet")}\0`;
  for (const [what, whole] of [
    ["a path", `../heron.quillet\0-- x\0`],
    ["markup", `<img src=x onerror=alert(1)>.quillet\0-- x\0`],
    ["one name twice", heron + heron],
    ["no name", `\0-- x\0`],
    ["more than a megabyte, packed", `heron.quillet\0${"-- a note\n".repeat(200_000)}\0`],
    ["signs that are no text", Buffer.from([...Buffer.from("heron.quillet\0"), 0xff, 0xfe, 0])],
  ]) {
    const it = await fresh({ hash: made(whole) });
    await it.page.waitForFunction(() => document.querySelector("#said").textContent.includes("damaged: nothing was opened"), undefined, { timeout: 10_000 }).catch(() => assert.fail(what));
    await says(it.page, "Nothing found");
    assert.deepEqual(it.bad, [], what);
    await it.context.close();
  }
  ok("links hold the files; damaged, huge and newer ones open nothing, nor do names that are none");

  // What a design is called is a text, whatever it looks like.
  const marked = text("heron.quillet").replace('pen heron "Heron"', 'pen heron "<img src=x onerror=document.title=1><b>Heron"');
  const markup = await fresh({ hash: made(`heron-two.quillet\0${marked}\0saltings.quillet\0${text("saltings.quillet")}\0bought.quillet\0${text("bought.quillet")}\0`) });
  await markup.page.waitForSelector("#lent:not([hidden])");
  await says(markup.page, "Nothing found");
  await markup.page.locator(".cm-content").click();
  await markup.page.keyboard.press("Control+End");
  for (const _ of "12345678") {
    await markup.page.keyboard.press("ArrowUp");
  }
  await markup.page.waitForFunction(() => document.querySelector("#drawing")?.textContent.includes("<b>Heron") || [...document.querySelectorAll("#drawing img")].some((it) => it.alt.includes("<b>Heron")));
  assert.equal(await markup.page.locator("#drawing b, #drawing img[src=x], .cm-content img:not(.cm-widgetBuffer)").count(), 0);
  assert.ok((await markup.page.title()).endsWith("Quillet"));
  assert.deepEqual(markup.bad, []);
  await markup.context.close();
  ok("markup in a design's text stays text");
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
  const names = () => moving.page.locator("#files button").allTextContents();
  const before = await names();
  for (const damage of [(it) => it.fill(0xff, 200, 5000), (it) => (it[300] ^= 1), (it) => (it[it.length - 30] ^= 1)]) {
    const damaged = Buffer.from(zip);
    damage(damaged);
    await moving.page.evaluate(() => (document.querySelector("#said").textContent = ""));
    await moving.page.locator("#chosen").setInputFiles({ name: "bad.zip", mimeType: "application/zip", buffer: damaged });
    await moving.page.waitForFunction(() => document.querySelector("#said").textContent.includes("damaged: nothing was imported"));
    assert.deepEqual(await names(), before);
  }
  await moving.page.locator("#chosen").setInputFiles({ name: "old.quillet", mimeType: "text/plain", buffer: Buffer.from([0x2d, 0x2d, 0xe9, 0x0a]) });
  await moving.page.waitForFunction(() => document.querySelector("#said").textContent.includes("no text in UTF-8"));
  assert.deepEqual(await names(), before);
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

  // Full once the page is open: what is typed stays, and is said not to be kept.
  const full = await fresh();
  await says(full.page, "Nothing found");
  await full.page.evaluate(() => {
    IDBObjectStore.prototype.put = () => { throw new DOMException("full", "QuotaExceededError"); };
  });
  await write(full.page, slip);
  await full.page.waitForSelector("#refused:not([hidden])");
  await full.page.waitForFunction(() => document.querySelectorAll("#found li").length > 0);
  await full.page.locator("#do-export").click();
  const [rescued] = await Promise.all([full.page.waitForEvent("download"), full.page.locator("dialog button", { hasText: "heron.quillet" }).click()]);
  assert.equal(readFileSync(await rescued.path(), "utf8"), slip);
  assert.deepEqual(full.bad, []);
  await full.context.close();
  ok("a store that is full is said to be, and what is typed can be exported");
  console.log(`what is refused: ${passed} passed, 0 failed`);
} catch (error) {
  await failed(error, join(pictures, "refused.png"));
} finally {
  await close();
}
