// Files that come and go in one archive.

import { strToU8, unzipSync, zipSync } from "fflate";
import { nameOf } from "./names";

const MOST_FILES = 200;
const MOST_BYTES = 5 << 20;

/** What an archive is not, as a sentence for the maker. */
export class BadArchive extends Error {}

export function packed(files: Iterable<[string, string]>): Uint8Array<ArrayBuffer> {
  const all = Object.fromEntries([...files].map(([name, text]) => [name, strToU8(text)]));
  // The same bytes whenever it is written.
  return zipSync(all, { mtime: "1980-01-01T00:00:00" }) as Uint8Array<ArrayBuffer>;
}

/** The pens of an archive; all or, where a byte of it is not as it was written, none. */
export function unpacked(bytes: Uint8Array): [string, string][] {
  let [count, length] = [0, 0];
  try {
    const sums = checksums(bytes);
    const all = unzipSync(bytes, {
      filter: (file) => {
        const wanted = nameOf(file.name) !== undefined && !file.name.startsWith("__MACOSX");
        if (wanted) {
          count += 1;
          length += file.originalSize;
        }
        if (count > MOST_FILES || length > MOST_BYTES) {
          throw new BadArchive(`This archive holds more than ${MOST_FILES} files or 5 MB: nothing was imported.`);
        }
        return wanted;
      },
    });
    return Object.entries(all).map(([path, own]) => {
      if (sums.get(path) !== crc32(own)) {
        throw new Error(`${path} is not as it was written`);
      }
      return [nameOf(path) ?? path, textOf(own)];
    });
  } catch (error) {
    throw error instanceof BadArchive ? error : new BadArchive("This archive is damaged: nothing was imported.");
  }
}

/** A text; fails where the bytes are none in UTF-8. */
export function textOf(bytes: Uint8Array): string {
  return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
}

// The library that unpacks compares nothing: what an archive says of itself is read here once more. Places and
// signatures are of the format's own description (APPNOTE 4.3).
const END = { sign: 0x06054b50, length: 22, here: 8, count: 10, bytes: 12, from: 16 };
const ENTRY = { sign: 0x02014b50, length: 46, sum: 16, name: 28, extra: 30, comment: 32, local: 42 };
const LOCAL = { sign: 0x04034b50, length: 30, name: 26 };

/** The checksum of each file by its path; fails where the directory does not fit the archive. */
function checksums(bytes: Uint8Array): Map<string, number> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const end = lastEnd(view);
  const count = view.getUint16(end + END.count, true);
  let at = view.getUint32(end + END.from, true);
  const sums = new Map<string, number>();
  for (let left = count; left > 0; left -= 1) {
    const local = view.getUint32(at + ENTRY.local, true);
    const name = nameAt(bytes, at + ENTRY.length, view.getUint16(at + ENTRY.name, true));
    const beside = nameAt(bytes, local + LOCAL.length, view.getUint16(local + LOCAL.name, true));
    if (view.getUint32(at, true) !== ENTRY.sign || view.getUint32(local, true) !== LOCAL.sign || name !== beside) {
      throw new Error("not an entry");
    }
    sums.set(name, view.getUint32(at + ENTRY.sum, true));
    at += ENTRY.length + [ENTRY.name, ENTRY.extra, ENTRY.comment].reduce((sum, it) => sum + view.getUint16(at + it, true), 0);
  }
  if (count !== view.getUint16(end + END.here, true) || at !== end || at - view.getUint32(end + END.from, true) !== view.getUint32(end + END.bytes, true)) {
    throw new Error("not the whole directory");
  }
  return sums;
}

/** Where the record at the end begins. */
function lastEnd(view: DataView): number {
  for (let at = view.byteLength - END.length; at >= 0; at -= 1) {
    if (view.getUint32(at, true) === END.sign) {
      return at;
    }
  }
  throw new Error("no end");
}

function nameAt(bytes: Uint8Array, from: number, length: number): string {
  return textOf(bytes.subarray(from, from + length));
}

/** The checksum that archives carry: CRC-32, polynomial 0xedb88320 (APPNOTE 4.4.7, ITU-T V.42 8.1.1.6.2). */
function crc32(bytes: Uint8Array): number {
  let sum = -1;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit += 1) {
      sum = (sum >>> 1) ^ (sum & 1 ? 0xedb88320 : 0);
    }
  }
  return ~sum >>> 0;
}
