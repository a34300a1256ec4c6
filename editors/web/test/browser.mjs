// A real Chromium for the page's tests and its times, and the page's folder served to it.

import { createRequire } from "node:module";
import { join } from "node:path";
import { serve } from "./serve.mjs";

const ARGS = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-sync", "--disable-background-networking", "--disable-component-update"];

/** Chromium by the driver that is installed in `tools`, and the built page in `folder`. */
export async function begun(tools, folder) {
  const { chromium } = createRequire(join(tools, "package.json"))("playwright-core");
  const { address, end } = await serve(folder);
  const browser = await chromium.launch({ executablePath: "/usr/bin/chromium", args: ARGS });

  /** A page of a browser that has kept nothing yet; `bad` is what went out or wrong. */
  const fresh = async (about = {}) => {
    const context = await browser.newContext({ viewport: { width: 1280, height: 860 }, acceptDownloads: true, ...about });
    const page = await context.newPage();
    page.setDefaultTimeout(30_000);
    const bad = [];
    page.on("request", (it) => {
      if (!it.url().startsWith(address) && !/^(data|blob):/.test(it.url())) {
        bad.push(it.url());
      }
    });
    page.on("console", (it) => it.type() === "error" && bad.push(it.text()));
    page.on("pageerror", (it) => bad.push(String(it)));
    await page.goto(address + (about.hash ?? ""));
    await page.waitForSelector("body[data-ready]");
    return { context, page, bad };
  };

  /** Pictures of what was open when something failed, then the end. */
  const failed = async (error, picture) => {
    for (const context of browser.contexts()) {
      for (const page of context.pages()) {
        await page.screenshot({ path: picture }).catch(() => undefined);
      }
    }
    console.log(`not ok - ${error.stack}`);
    process.exitCode = 1;
  };
  const close = async () => {
    await browser.close();
    end();
  };
  return { address, browser, fresh, failed, close };
}

/** Puts a text in the place of the whole, as from the clipboard. */
export async function write(page, whole) {
  await page.locator(".cm-content").click();
  await page.keyboard.press("Control+a");
  await page.locator(".cm-content").evaluate((element, text) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData("text/plain", text);
    element.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  }, whole);
}

/** Waits until the page counts its findings so. */
export const says = (page, what) => page.waitForFunction((it) => document.querySelector("#count")?.textContent === it, what);
