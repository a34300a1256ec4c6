// Which files a text uses, by its `use` lines: only to know what goes into a link.

const USE = /^[ \t]*use[ \t]+"([^"\n]+)"/gm;

/** A file and those it uses, directly or not, it first. */
export function withUsed(root: string, text: (file: string) => string | undefined): string[] {
  const found = [root];
  for (const file of found) {
    for (const [, used] of (text(file) ?? "").matchAll(USE)) {
      if (used !== undefined && text(used) !== undefined && !found.includes(used)) {
        found.push(used);
      }
    }
  }
  return found;
}
