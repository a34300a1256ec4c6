// The checker's Markdown as elements: paragraphs, lists, tables, code, emphasis. Text is only ever
// set as text, so nothing of a design can become markup.

export function rendered(markdown: string): HTMLElement {
  const box = document.createElement("div");
  box.className = "prose";
  const lines = markdown.split("\n");
  let at = 0;
  while (at < lines.length) {
    const line = lines[at] ?? "";
    if (line.trim() === "") {
      at += 1;
    } else if (line.startsWith("```")) {
      const end = lines.findIndex((it, index) => index > at && it.startsWith("```"));
      const last = end < 0 ? lines.length : end;
      const pre = document.createElement("pre");
      pre.textContent = lines.slice(at + 1, last).join("\n");
      box.append(pre);
      at = last + 1;
    } else if (line.startsWith("|")) {
      const rows = block(lines, at, (it) => it.startsWith("|"));
      box.append(table(rows));
      at += rows.length;
    } else if (/^#+ /.test(line)) {
      const heading = document.createElement("h4");
      inline(heading, line.replace(/^#+ /, ""));
      box.append(heading);
      at += 1;
    } else if (/^[-*] /.test(line)) {
      const rows = block(lines, at, (it) => /^([-*] | {2})/.test(it));
      const list = document.createElement("ul");
      for (const row of rows) {
        const item = document.createElement("li");
        inline(item, row.replace(/^[-*] | +/, ""));
        list.append(item);
      }
      box.append(list);
      at += rows.length;
    } else {
      const rows = block(lines, at, (it) => it.trim() !== "" && !/^([-*] |#+ |```|\|)/.test(it));
      const paragraph = document.createElement("p");
      inline(paragraph, rows.join("\n"));
      box.append(paragraph);
      at += Math.max(rows.length, 1);
    }
  }
  return box;
}

function block(lines: string[], from: number, holds: (line: string) => boolean): string[] {
  const end = lines.findIndex((it, index) => index >= from && !holds(it));
  return lines.slice(from, end < 0 ? undefined : end);
}

function table(rows: string[]): HTMLElement {
  const whole = document.createElement("table");
  const cells = (row: string) => row.replace(/^\||\|$/g, "").split("|").map((it) => it.trim());
  rows.forEach((row, index) => {
    if (/^[|\s:-]+$/.test(row)) {
      return;
    }
    const line = document.createElement("tr");
    for (const text of cells(row)) {
      const cell = document.createElement(index === 0 && rows.length > 1 ? "th" : "td");
      inline(cell, text);
      line.append(cell);
    }
    if (line.textContent?.trim() !== "") {
      whole.append(line);
    }
  });
  return whole;
}

/** `code`, **strong**, *soft*, [text](address): of an address only the text. */
function inline(into: HTMLElement, text: string): void {
  const pattern = /`([^`]+)`|\*\*([^*]+)\*\*|\*([^*]+)\*|!?\[([^\]]*)\]\([^)]*\)|<br>/g;
  let from = 0;
  for (const found of text.matchAll(pattern)) {
    into.append(text.slice(from, found.index));
    const [whole, code, strong, soft, named] = found;
    const element = document.createElement(code ? "code" : strong ? "strong" : soft ? "em" : whole === "<br>" ? "br" : "span");
    element.textContent = code ?? strong ?? soft ?? named ?? "";
    into.append(element);
    from = found.index + whole.length;
  }
  into.append(text.slice(from));
}
