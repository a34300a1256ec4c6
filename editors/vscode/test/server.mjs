// The real server, spoken to through the protocol library the extension itself uses.

import { spawn } from "node:child_process";
import { mkdtempSync, cpSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import protocol from "vscode-languageserver-protocol/node.js";

export const { StreamMessageReader, StreamMessageWriter, createProtocolConnection } = protocol;

const here = fileURLToPath(new URL(".", import.meta.url));
export const root = join(here, "../../..");
export const program = process.env.QUILLET ?? join(root, "target/debug/quillet");
export const examples = join(root, "examples");

/** A session over a copy of the examples, for one test; `end` shuts it down and gives the exit code. */
export async function begin(test, capabilities = {}) {
  const folder = mkdtempSync(join(tmpdir(), "quillet-test-"));
  cpSync(examples, folder, { recursive: true });
  const child = spawn(program, ["lsp"], { cwd: folder, stdio: ["pipe", "pipe", "inherit"] });
  // A test that fails does not get as far as `end`.
  test.after(() => {
    child.kill();
    rmSync(folder, { recursive: true });
  });
  const exited = new Promise((done) => child.once("exit", done));
  const connection = createProtocolConnection(
    new StreamMessageReader(child.stdout),
    new StreamMessageWriter(child.stdin),
  );
  const diagnostics = new Map();
  let wake = () => {};
  connection.onNotification("textDocument/publishDiagnostics", (told) => {
    diagnostics.set(told.uri, told.diagnostics);
    wake();
  });
  connection.listen();
  const initialized = await connection.sendRequest("initialize", {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    workspaceFolders: [{ uri: pathToFileURL(folder).href, name: "pens" }],
    capabilities,
  });
  await connection.sendNotification("initialized", {});
  return {
    connection,
    initialized,
    async open(name) {
      const uri = pathToFileURL(join(folder, name)).href;
      const text = readFileSync(join(folder, name), "utf8");
      const textDocument = { uri, languageId: "quillet", version: 1, text };
      await connection.sendNotification("textDocument/didOpen", { textDocument });
      return { uri, text };
    },
    /** Waits for diagnostics of a file that hold to a condition. */
    async told(uri, holds) {
      const late = setTimeout(() => wake("late"), 10_000);
      try {
        for (;;) {
          const found = diagnostics.get(uri);
          if (found && holds(found)) {
            return found;
          }
          const why = await new Promise((again) => (wake = again));
          if (why === "late") {
            throw new Error(`no such diagnostics of ${uri}: ${JSON.stringify(found)}`);
          }
        }
      } finally {
        clearTimeout(late);
      }
    },
    async end() {
      await connection.sendRequest("shutdown");
      await connection.sendNotification("exit");
      const code = await exited;
      connection.dispose();
      return code;
    },
  };
}
