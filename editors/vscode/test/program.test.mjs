// Where the program is looked for, and what is said where it is not.

import assert from "node:assert/strict";
import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { test } from "node:test";
import { findProgram } from "../src/program.ts";

/** A folder of folders, some with a program in them; removed after the test. */
function folders(test, ...with_program) {
  const root = mkdtempSync(join(tmpdir(), "quillet-test-"));
  test.after(() => rmSync(root, { recursive: true }));
  for (const name of with_program) {
    mkdirSync(join(root, name), { recursive: true });
    writeFileSync(join(root, name, "quillet"), "");
    chmodSync(join(root, name, "quillet"), 0o755);
  }
  const places = { wanted: "", folder: root, bundled: join(root, "server"), path: join(root, "path"), platform: "linux", home: root };
  return { root, places };
}

const ORDER = ["said", "server", "path", ".cargo/bin"];

for (const [first, name] of ORDER.entries()) {
  test(`${name} counts before ${ORDER.slice(first + 1).join(", ") || "none"}`, (test) => {
    const { root, places } = folders(test, ...ORDER.slice(first));
    const wanted = first === 0 ? "said/quillet" : "";
    assert.deepEqual(findProgram({ ...places, wanted }), { path: join(root, name, "quillet") });
  });
}

test("what is nowhere is told with each place it was looked for", (test) => {
  const { root, places } = folders(test);
  const { path, why } = findProgram(places);
  assert.equal(path, undefined);
  for (const place of ["quillet.server.path", join(root, "server"), "PATH", join(root, ".cargo/bin")]) {
    assert.ok(why.includes(place), `${place}: ${why}`);
  }
});

test("a setting that names no program is said, and nothing else is taken", (test) => {
  const { places } = folders(test, "path");
  const { path, why } = findProgram({ ...places, wanted: "/nowhere/quillet" });
  assert.equal(path, undefined);
  assert.match(why, /\/nowhere\/quillet/);
});

test("what may not be run is no program, nor is one of a folder that is not absolute", (test) => {
  const { root, places } = folders(test, "path");
  chmodSync(join(root, "path/quillet"), 0o644);
  assert.equal(findProgram({ ...places, path: `${places.path}:path:` }).path, undefined);
});

test("Windows looks for quillet.exe", (test) => {
  const { root, places } = folders(test, "server");
  assert.match(findProgram({ ...places, platform: "win32" }).why, /quillet\.exe/);
  writeFileSync(join(root, "server/quillet.exe"), "");
  chmodSync(join(root, "server/quillet.exe"), 0o755);
  assert.equal(findProgram({ ...places, platform: "win32" }).path, join(root, "server/quillet.exe"));
});
