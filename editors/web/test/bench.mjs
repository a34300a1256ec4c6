// The page's times in a real Chromium: node bench.mjs TOOLS FOLDER TIMES. Called by editors/web/bench.

import { readFileSync } from "node:fs";
import { availableParallelism, loadavg } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { begun } from "./browser.mjs";

const [tools, folder, times] = process.argv.slice(2);
const examples = join(dirname(fileURLToPath(import.meta.url)), "../../../examples");
const FILES = ["heron.quillet", "saltings.quillet", "bought.quillet"];
const texts = Object.fromEntries(FILES.map((it) => [it, readFileSync(join(examples, it), "utf8")]));

// What the design asks for at most, ms.
const BOUNDS = {
  "the checker ready, its file compiled": 300,
  "the first findings of Heron": 400,
  "a keystroke, to what is found": [15, 50],
  "the drawing of the pen after it": [50, 120],
  "what can be written, after it": [10, 40],
};

/** Runs in the page: a checker of its own, asked as the page asks it. */
async function measured({ texts, times }) {
  const started = performance.now();
  const worker = new Worker("worker.js", { type: "module" });
  let next = 0;
  const ask = (question) =>
    new Promise((resolve, reject) => {
      const id = next++;
      const answered = ({ data }) => {
        if (data.id === id) {
          worker.removeEventListener("message", answered);
          const answer = JSON.parse(data.answer ?? '{"error": "the checker stopped"}');
          if (answer?.error !== undefined) {
            reject(new Error(answer.error));
          }
          resolve(answer);
        }
      };
      worker.addEventListener("message", answered);
      worker.postMessage({ id, question: JSON.stringify(question) });
    });
  let last;
  const timed = async (questions) => {
    const begun = performance.now();
    for (const question of questions) {
      last = await ask(question);
    }
    return performance.now() - begun;
  };
  await ask({ ask: "drop", file: "nothing.quillet" });
  const ready = performance.now() - started;
  const sets = Object.entries(texts).map(([file, text]) => ({ ask: "set", file, text }));
  const file = "heron.quillet";
  const first = await timed([...sets, { ask: "findings", file }]);

  // A digit of one number, then of another, written anew: no text comes twice in a row.
  const heron = texts[file];
  const digits = [...heron.matchAll(/(?<=(?:dia|drill|length|to) +\d*)\d/g)].map((it) => it.index);
  const keys = { "a keystroke, to what is found": [], "the drawing of the pen after it": [], "what can be written, after it": [] };
  for (let turn = 0; turn < times; turn += 1) {
    const at = digits[(turn * 7) % digits.length];
    const text = heron.slice(0, at) + ((Number(heron[at]) + 1 + (turn % 8)) % 10) + heron.slice(at + 1);
    keys["a keystroke, to what is found"].push(await timed([{ ask: "set", file, text }, { ask: "findings", file }]));
    const drawing = await timed([{ ask: "preview", file, at: text.indexOf("pen heron") + 4 }]);
    // Of a text of which nothing can be drawn, the answer is soon there.
    if (last !== null && last.pictures.length > 0) {
      keys["the drawing of the pen after it"].push(drawing);
    }
    // What comes behind a word that is only begun.
    const line = heron.lastIndexOf("\n", at) + 1;
    const begun = text.slice(0, line) + "    dr\n" + text.slice(line);
    const complete = { ask: "complete", file, at: line + 6 };
    keys["what can be written, after it"].push(await timed([{ ask: "set", file, text: begun }, complete]));
  }
  worker.terminate();
  return { ready, first, keys };
}

/** So many of a hundred are below it. */
function percentile(all, share) {
  const sorted = all.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor((share / 100) * sorted.length))];
}

const ms = (it) => `${it.toFixed(it < 10 ? 1 : 0)} ms`;
const { browser, fresh, close } = await begun(tools, folder);
try {
  const { page } = await fresh();
  await page.waitForFunction(() => document.querySelector("#count")?.textContent === "Nothing found");
  const load = () => loadavg().map((it) => it.toFixed(1)).join(", ");
  console.log(`Chromium ${browser.version()}, ${availableParallelism()} cores, load ${load()}`);
  const first = [];
  for (let turn = 0; turn < 5; turn += 1) {
    first.push(await page.evaluate(measured, { texts, times: 0 }));
  }
  const { keys } = await page.evaluate(measured, { texts, times: Number(times) });
  const one = (what, all) => console.log(`${what}: ${ms(percentile(all, 50))}, the middle of ${all.length}; ${BOUNDS[what]} ms wanted at most`);
  one("the checker ready, its file compiled", first.map((it) => it.ready));
  one("the first findings of Heron", first.map((it) => it.first));
  for (const [what, all] of Object.entries(keys)) {
    const [p50, p95] = BOUNDS[what];
    console.log(`${what}: p50 ${ms(percentile(all, 50))}, p95 ${ms(percentile(all, 95))}, of ${all.length}; ${p50} and ${p95} ms wanted at most`);
  }
  // From a key to the words beside the text, in the page itself.
  const seen = [];
  for (let turn = 0; turn < 20; turn += 1) {
    seen.push(
      await page.evaluate(async () => {
        const content = document.querySelector(".cm-content");
        content.focus();
        const count = document.querySelector("#count");
        const before = count.textContent;
        const changed = new Promise((done) => new MutationObserver(() => count.textContent !== before && done()).observe(count, { childList: true, characterData: true, subtree: true }));
        const begun = performance.now();
        document.execCommand(before === "Nothing found" ? "insertText" : "delete", false, "x");
        await changed;
        return performance.now() - begun;
      }),
    );
    await page.waitForTimeout(400);
  }
  console.log(`a key in the page, to the count of findings beside the text: p50 ${ms(percentile(seen, 50))}, p95 ${ms(percentile(seen, 95))}, of ${seen.length}; 150 ms of it is the wait for quiet`);
  console.log(`load at the end ${load()}`);
} finally {
  await close();
}
