// Begins: what was kept, the shipped pens, the page.

import { find } from "./elements";
import { Files } from "./files";
import { Page } from "./page";
import { mayWrite } from "./tabs";

/** The shipped pens by name; put in when the page is built. */
declare const EXAMPLES: Record<string, string>;
declare const NONCE: string;

const writes = await mayWrite();
let refused = false;
const files = await Files.open(writes, () => {
  refused = true;
  find("refused").hidden = false;
});
if (!files.last.seen) {
  for (const [name, text] of Object.entries(EXAMPLES)) {
    files.set(name, text);
  }
  files.remember({ seen: true });
}
const page = new Page(files, new Map(Object.entries(EXAMPLES)), writes, NONCE);
if (!(await page.fromLink())) {
  const last = files.last.open;
  page.open(last !== undefined && files.has(last) ? last : files.has("heron.quillet") ? "heron.quillet" : (files.names()[0] ?? ""));
}
find("second").hidden = writes;
if (refused) {
  page.say("");
}

addEventListener("hashchange", () => void page.fromLink());
addEventListener("quillet-kill", () => page.kill());
document.body.dataset.ready = "true";

if ("serviceWorker" in navigator && location.protocol !== "file:") {
  const known = navigator.serviceWorker.controller !== null;
  const registered = await navigator.serviceWorker.register("offline.js").catch(() => undefined);
  registered?.addEventListener("updatefound", () => {
    const coming = registered.installing;
    coming?.addEventListener("statechange", () => {
      if (coming.state === "installed" && known) {
        const newer = find("newer");
        newer.hidden = false;
        find("do-newer").addEventListener("click", () => {
          coming.postMessage("take over");
          navigator.serviceWorker.addEventListener("controllerchange", () => location.reload());
        });
      }
    });
  });
}
