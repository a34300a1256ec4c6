// Files that come and go in one archive.

import { strFromU8, strToU8, unzipSync, zipSync } from "fflate";
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

export function unpacked(bytes: Uint8Array): [string, string][] {
  let [count, length] = [0, 0];
  let all: Record<string, Uint8Array>;
  try {
    all = unzipSync(bytes, {
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
  } catch (error) {
    throw error instanceof BadArchive ? error : new BadArchive("This archive is damaged: nothing was imported.");
  }
  return Object.entries(all).map(([path, own]) => [nameOf(path) ?? path, strFromU8(own)]);
}
