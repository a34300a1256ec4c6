// What a file may be called here.

const NAME = /^[A-Za-z0-9][A-Za-z0-9._-]{0,50}\.quillet$/;

export function isName(name: string): boolean {
  return NAME.test(name);
}

/** The last part of a path, as a name for here; none where it is none. */
export function nameOf(path: string): string | undefined {
  const last = path.split(/[\\/]/).at(-1) ?? "";
  return isName(last) ? last : undefined;
}

/** A name that is not taken: `heron-2.quillet` beside `heron.quillet`. */
export function freeName(name: string, taken: (name: string) => boolean): string {
  const stem = name.replace(/\.quillet$/, "");
  for (let number = 2; ; number += 1) {
    const ending = `-${number}.quillet`;
    const free = stem.slice(0, 59 - ending.length) + ending;
    if (!taken(free)) {
      return free;
    }
  }
}
