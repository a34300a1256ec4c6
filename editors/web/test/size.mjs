// How much the page loads, and whether it names any address but its own: node size.mjs FOLDER.

import assert from "node:assert/strict";
import { readFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync } from "node:zlib";

const folder = process.argv[2];
const kB = (names) => names.reduce((sum, it) => sum + brotliCompressSync(readFileSync(join(folder, it))).length, 0) / 1000;

// The checker measures its drawings by the font, so the font (532 kB of it) is in it. What was made, and flats
// in meshes, took 28 kB; flats in STEP, parts turned as one and cuts from the side as made, 49.
const BOUNDS = [
  ["checker", ["quillet_web_bg.wasm"], 1800],
  ["script", ["main.js", "worker.js", "offline.js"], 150],
];
for (const [what, files, most] of BOUNDS) {
  const size = kB(files);
  console.log(`${what}: ${size.toFixed(0)} kB, brotli; at most ${most}`);
  assert.ok(size <= most, `the ${what} is larger than ${most} kB`);
}

// Names of vocabularies are no addresses that anything is fetched from.
const NAMES = /^https?:\/\/www\.w3\.org\//;
// Nor are those in the licences that a release puts beside the page: no part of it reads them.
const LICENCES = ["LICENSE", "THIRD-PARTY"];
for (const name of readdirSync(folder).filter((it) => !it.endsWith(".wasm") && !LICENCES.includes(it))) {
  const text = readFileSync(join(folder, name), "utf8");
  const found = [...text.matchAll(/https?:\/\/[a-z0-9.-]+\.[a-z]{2,}[^\s"'`)]*/gi)].map((it) => it[0]);
  assert.deepEqual(found.filter((it) => !NAMES.test(it)), [], `${name} names another's address`);
}
console.log("no address but its own");
