// A folder on loopback, as any host of static files would give it.

import { createReadStream, existsSync, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize } from "node:path";

const KINDS = {
  ".html": "text/html",
  ".js": "text/javascript",
  ".css": "text/css",
  ".svg": "image/svg+xml",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
};

/** Serves a folder; gives its address and what ends it. */
export async function serve(folder) {
  const server = createServer((request, answer) => {
    const path = normalize(decodeURIComponent(new URL(request.url, "http://x").pathname));
    let file = join(folder, path);
    if (existsSync(file) && statSync(file).isDirectory()) {
      file = join(file, "index.html");
    }
    if (!existsSync(file)) {
      answer.writeHead(404).end();
      return;
    }
    answer.writeHead(200, { "content-type": KINDS[extname(file)] ?? "application/octet-stream", "cache-control": "no-cache" });
    createReadStream(file).pipe(answer);
  });
  await new Promise((listening) => server.listen(0, "127.0.0.1", listening));
  return { address: `http://127.0.0.1:${server.address().port}/`, end: () => server.close() };
}
