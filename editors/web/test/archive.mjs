// Archives and snippets without a browser: node archive.mjs. Whatever byte of an archive is another, no text comes
// out of it that was not put in.

import assert from "node:assert/strict";
import { crc32, deflateRawSync } from "node:zlib";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const source = join(dirname(fileURLToPath(import.meta.url)), "../src");

/** A module of the page's. */
async function module(name) {
  const { outputFiles } = await build({ entryPoints: [join(source, `${name}.ts`)], bundle: true, format: "esm", write: false });
  return import(`data:text/javascript;base64,${Buffer.from(outputFiles[0].contents).toString("base64")}`);
}

const { packed, unpacked, BadArchive } = await module("zip");
const { stops } = await module("snippets");

const texts = [
  ["heron.quillet", "-- ⌀ 12.2\nlet grip = 11.4\n".repeat(9)],
  ["knot.quillet", "let a = 1\n"],
  ["tern.quillet", ""],
];
const zip = packed(texts);
assert.deepEqual(unpacked(zip), texts);
let refused = 0;
for (let at = 0; at < zip.length; at += 1) {
  for (const by of [1, 0x80, 0xff]) {
    const damaged = Uint8Array.from(zip);
    damaged[at] ^= by;
    try {
      // A date or a flag is no part of a text.
      assert.deepEqual(unpacked(damaged), texts, `byte ${at}`);
    } catch (error) {
      assert.ok(error instanceof BadArchive, `byte ${at}: ${error}`);
      refused += 1;
    }
  }
}
for (let length = 0; length < zip.length; length += 1) {
  assert.throws(() => unpacked(zip.subarray(0, length)), BadArchive, `${length} bytes`);
}
console.log(`ok - of ${3 * zip.length} archives with one byte changed ${refused} are refused, the others hold what was put in`);

/** An archive as any program could write it: one entry, whose directory may say another size. */
function foreign(path, data, says = data.length) {
  const [name, body] = [Buffer.from(path), deflateRawSync(data)];
  const common = Buffer.alloc(26);
  common.writeUInt16LE(20, 0);
  common.writeUInt16LE(8, 4);
  common.writeUInt32LE(crc32(data), 10);
  common.writeUInt32LE(body.length, 14);
  common.writeUInt32LE(says, 18);
  common.writeUInt16LE(name.length, 22);
  const local = Buffer.concat([Buffer.from("PK\x03\x04", "latin1"), common, name, body]);
  const entry = Buffer.concat([Buffer.from("PK\x01\x02\x14\x00", "latin1"), common, Buffer.alloc(14), name]);
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", "latin1");
  end.writeUInt16LE(1, 8);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(entry.length, 12);
  end.writeUInt32LE(local.length, 16);
  return Uint8Array.from(Buffer.concat([local, entry, end]));
}

const pen = Buffer.from("let grip = 11.4\n");
assert.deepEqual(unpacked(foreign("pens/../../heron.quillet", pen)), [["heron.quillet", pen.toString()]]);
for (const name of ["<img src=x>.quillet", "..quillet", "readme.txt", "__MACOSX/heron.quillet"]) {
  assert.deepEqual(unpacked(foreign(name, pen)), [], name);
}
const large = Buffer.alloc(6 << 20, "-- a note\n");
assert.throws(() => unpacked(foreign("heron.quillet", large)), /more than 200 files or 5 MB/);
assert.throws(() => unpacked(foreign("heron.quillet", large, 100)), /damaged/, "it says that it is small");
assert.throws(() => unpacked(foreign("heron.quillet", Buffer.from([0x6c, 0xe9, 0x74]))), /damaged/, "not UTF-8");
console.log("ok - paths, markup, sizes that are not true and other signs than UTF-8 are kept out");

for (const [written, wanted] of [
  ["screw ${1|cap.mouth,cap.crown|} into ${2|barrel.mouth|}", "screw ${1:cap.mouth} into ${2:barrel.mouth}"],
  ["thread ${1:thread} ${2|inside,outside|} to ${3:depth}", "thread ${1:thread} ${2:inside} to ${3:depth}"],
  ["at $2 dia ${1:14}", "at ${2:} dia ${1:14}"],
  ["from ${2:mouth} {\n\tat $2\n\tat ${2}\n$0}", "from ${2:mouth} {\n\tat ${2:mouth}\n\tat ${2:mouth}\n${}}"],
  ["outside {\n\t$0\n}", "outside {\n\t${}\n}"],
  ["${1|a\\,b\\|c,d|}", "${1:a,b|c}"],
]) {
  assert.equal(stops(written), wanted);
}
console.log("ok - snippets come in the form that the text's editor reads");
