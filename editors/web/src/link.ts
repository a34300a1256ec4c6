// A link that holds files: `#q1=` and base64url of raw DEFLATE of `name NUL text NUL …`.

import { isName } from "./names";

const KIND = "#q1=";
/** More is damaged, or meant to harm. */
const MOST_CHARACTERS = 32_000;
const MOST_BYTES = 1 << 20;

/** What a link cannot be, as a sentence for the maker. */
export class BadLink extends Error {}

export async function linkOf(files: [string, string][]): Promise<string> {
  const whole = files.map(([name, text]) => `${name}\0${text}\0`).join("");
  const stream = new Blob([whole]).stream().pipeThrough(new CompressionStream("deflate-raw"));
  const bytes = new Uint8Array(await new Response(stream).arrayBuffer());
  let binary = "";
  for (const byte of bytes) {
    binary += String.fromCharCode(byte);
  }
  return KIND + btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** The files of a link; none where the address holds no link. */
export async function filesOf(hash: string): Promise<[string, string][] | undefined> {
  if (!hash.startsWith(KIND)) {
    if (/^#q\d+=/.test(hash)) {
      throw new BadLink("This link was made by a newer Quillet.");
    }
    return undefined;
  }
  const damaged = new BadLink("This link is damaged: nothing was opened.");
  if (hash.length > MOST_CHARACTERS) {
    throw damaged;
  }
  const text = await unpacked(hash.slice(KIND.length)).catch(() => undefined);
  const parts = text?.split("\0") ?? [];
  // Each text ends with the sign too, so that one that was cut off is known.
  if (parts.length < 3 || parts.length % 2 === 0 || parts.at(-1) !== "") {
    throw damaged;
  }
  const files: [string, string][] = [];
  for (let at = 0; at + 1 < parts.length; at += 2) {
    const [name, own] = [parts[at] ?? "", parts[at + 1] ?? ""];
    if (!isName(name) || files.some((it) => it[0] === name)) {
      throw damaged;
    }
    files.push([name, own]);
  }
  return files;
}

async function unpacked(coded: string): Promise<string> {
  const binary = atob(coded.replaceAll("-", "+").replaceAll("_", "/"));
  const bytes = Uint8Array.from(binary, (it) => it.charCodeAt(0));
  const reader = new Blob([bytes]).stream().pipeThrough(new DecompressionStream("deflate-raw")).getReader();
  const chunks: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) {
      break;
    }
    length += value.length;
    if (length > MOST_BYTES) {
      await reader.cancel();
      throw new Error("too long");
    }
    chunks.push(value as Uint8Array<ArrayBuffer>);
  }
  return new TextDecoder("utf-8", { fatal: true }).decode(await new Blob(chunks).arrayBuffer());
}
