// Puts the page together: node bundle.mjs FOLDER, after the checker was built into src/checker.

import { createHash } from "node:crypto";
import { copyFileSync, mkdirSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const root = join(here, "../..");
const source = join(here, "src");
const out = process.argv[2] ?? join(here, "dist");
rmSync(out, { recursive: true, force: true });
mkdirSync(out, { recursive: true });

const examples = readdirSync(join(root, "examples")).filter((it) => it.endsWith(".quillet")).sort();
const texts = Object.fromEntries(examples.map((it) => [it, readFileSync(join(root, "examples", it), "utf8")]));
const html = readFileSync(join(source, "index.html"), "utf8");
const bytes = (path) => readFileSync(path);
const wasm = join(source, "checker/quillet_web_bg.wasm");
const sources = [...readdirSync(source).sort().filter((it) => /\.(ts|css|html|webmanifest)$/.test(it)).map((it) => join(source, it)), wasm];
const hash = createHash("sha256");
sources.forEach((it) => hash.update(bytes(it)));
hash.update(JSON.stringify(texts));
const key = hash.digest("hex").slice(0, 16);

// What went into it, for the list of licences.
const inputs = {};
const bundled = async (name, define = {}) => {
  const { metafile } = await build({
    entryPoints: [join(source, `${name}.ts`)],
    outfile: join(out, `${name}.js`),
    bundle: true,
    format: name === "offline" ? "iife" : "esm",
    target: "es2022",
    minify: true,
    legalComments: "none",
    metafile: true,
    absWorkingDir: here,
    define,
  });
  Object.assign(inputs, metafile.inputs);
};

await bundled("main", { EXAMPLES: JSON.stringify(texts), NONCE: JSON.stringify(key) });
await bundled("worker");
copyFileSync(wasm, join(out, "quillet_web_bg.wasm"));
copyFileSync(join(root, "editors/vscode/images/file.svg"), join(out, "icon.svg"));
copyFileSync(join(source, "style.css"), join(out, "style.css"));
copyFileSync(join(source, "manifest.webmanifest"), join(out, "manifest.webmanifest"));
writeFileSync(join(out, "index.html"), html.replaceAll("{{nonce}}", key));
const parts = ["./", ...readdirSync(out).sort().filter((it) => it !== "index.html")];
await bundled("offline", { BUILD: JSON.stringify(`quillet-${key}`), PARTS: JSON.stringify(parts) });
writeFileSync(join(here, "dist-meta.json"), JSON.stringify({ inputs }));
