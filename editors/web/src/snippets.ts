// Snippets as the checker writes them, which is as editors' protocols have them, brought into the form that
// CodeMirror reads.

const STOP = /\$\{(\d+)\|((?:\\.|[^|\\])*)\|\}|\$\{(\d+):([^}]*)\}|\$(?:\{(\d+)\}|(\d+))/g;

/**
 * Of a choice its first stands there, to be written over; a stop that is said again follows the first; where
 * the cursor comes to rest is last.
 */
export function stops(snippet: string): string {
  const written = new Map<string, string>();
  return snippet.replace(STOP, (_, chosen, choices, named, name, ...bare) => {
    const again = (bare[0] ?? bare[1]) as string | undefined;
    if (again === "0") {
      return "${}";
    }
    const number = (chosen ?? named ?? again) as string;
    const first = choices === undefined ? undefined : (choices as string).match(/^(?:\\.|[^,\\])*/)?.[0].replace(/\\(.)/g, "$1");
    const text = first ?? (name as string | undefined) ?? written.get(number) ?? "";
    written.set(number, text);
    return `\${${number}:${text}}`;
  });
}
