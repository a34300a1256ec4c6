// The preview's page: no scripts, no addresses, nothing but the picture and a table.

export interface Measure {
  name: string;
  value: string;
}

/** What the server answers to `quillet/preview`. */
export interface Shown {
  name: string;
  title: string;
  pictures: { name: string; svg: string }[];
  /** What the numbers in the section of a pen point at. */
  legend: string[];
  measures: Measure[];
}

/** The whole page; `nonce` lets its one style sheet in, `absent` says why nobody can draw. */
export function page(what: Shown | undefined, nonce: string, absent?: string): string {
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Quillet</title>
<style nonce="${nonce}">${STYLE}</style>
</head>
<body>${what !== undefined ? shown(what) : absent !== undefined ? missing(absent) : EMPTY}</body>
</html>`;
}

const EMPTY = `<p class="empty">Put the cursor in a part or a pen, and it is drawn here.</p>`;

function missing(why: string): string {
  return `<p class="empty">Nothing can be drawn: ${text(why)}</p>`;
}

function shown({ title, pictures, legend, measures }: Shown): string {
  const rows = measures.map(
    ({ name, value }) => `<tr><th scope="row">${text(name)}</th><td>${text(value)}</td></tr>`,
  );
  const numbers = legend.map((says) => `<li>${text(says)}</li>`).join("");
  return `<h1>${text(title)}</h1>
${pictures.map(figure).join("\n")}
${numbers && `<ul>${numbers}</ul>`}
<table>${rows.join("")}</table>`;
}

function figure({ name, svg }: Shown["pictures"][number]): string {
  // As an image an SVG runs no script and loads nothing, whatever it holds.
  const data = Buffer.from(svg, "utf8").toString("base64");
  return `<figure><img alt="${text(name)}" src="data:image/svg+xml;base64,${data}"><figcaption>${text(name)}</figcaption></figure>`;
}

function text(raw: string): string {
  const names: Record<string, string> = { "&": "amp", "<": "lt", ">": "gt", '"': "quot" };
  return raw.replace(/[&<>"]/g, (sign) => `&${names[sign]};`);
}

const STYLE = `
body { font-family: var(--vscode-font-family); color: var(--vscode-foreground); padding: 0 1rem; }
h1 { font-size: 1.1rem; font-weight: 600; margin: 0.8rem 0 0.4rem; }
figure { margin: 0 0 0.8rem; }
figcaption { font-size: 0.9em; opacity: 0.8; }
img { display: block; width: 100%; max-width: 60rem; }
table { border-collapse: collapse; margin-bottom: 0.8rem; font-variant-numeric: tabular-nums; }
th { text-align: left; font-weight: normal; opacity: 0.8; padding: 0.15rem 1.2rem 0.15rem 0; vertical-align: top; min-width: 7em; }
td { padding: 0.15rem 0; white-space: pre-line; }
ul { list-style: none; margin: 0 0 1rem; padding: 0; font-size: 0.9em; opacity: 0.9; }
.empty { opacity: 0.7; margin-top: 2rem; text-align: center; }
`;
