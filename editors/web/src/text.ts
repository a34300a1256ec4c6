// Texts as the page holds them: lines end in `\n`.

export function tidy(text: string): string {
  return text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n");
}
