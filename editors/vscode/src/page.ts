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
  measures: Measure[];
}

/** The whole page; `nonce` lets its one style sheet in. */
export function page(what: Shown | undefined, nonce: string): string {
  const policy = `default-src 'none'; img-src data:; style-src 'nonce-${nonce}'`;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<title>Quillet</title>
<style nonce="${nonce}">${STYLE}</style>
</head>
<body>${what === undefined ? EMPTY : shown(what)}</body>
</html>`;
}

const EMPTY = `<p class="empty">Put the cursor in a part or a pen, and it is drawn here.</p>`;

function shown({ title, pictures, measures }: Shown): string {
  const rows = measures.map(
    ({ name, value }) => `<tr><th scope="row">${text(name)}</th><td>${text(value)}</td></tr>`,
  );
  return `<h1>${text(title)}</h1>
<table>${rows.join("")}</table>
${pictures.map((picture) => figure(picture, title)).join("\n")}`;
}

function figure({ name, svg }: Shown["pictures"][number], title: string): string {
  // As an image an SVG runs no script and loads nothing, whatever it holds.
  const data = Buffer.from(svg, "utf8").toString("base64");
  const caption = name === title ? "" : `<figcaption>${text(name)}</figcaption>`;
  return `<figure><img alt="${text(name)}" src="data:image/svg+xml;base64,${data}">${caption}</figure>`;
}

function text(raw: string): string {
  const names: Record<string, string> = { "&": "amp", "<": "lt", ">": "gt", '"': "quot" };
  return raw.replace(/[&<>"]/g, (sign) => `&${names[sign]};`);
}

const STYLE = `
body { font-family: var(--vscode-font-family); color: var(--vscode-foreground); padding: 0 1rem; }
h1 { font-size: 1.1rem; font-weight: 600; margin: 0.8rem 0 0.4rem; }
figure { margin: 0 0 0.6rem; padding: 0.6rem; background: #fdfcf8; border-radius: 4px; }
img { display: block; width: 100%; max-height: 60vh; object-fit: contain; }
table { border-collapse: collapse; margin-bottom: 0.8rem; font-variant-numeric: tabular-nums; }
th { text-align: left; font-weight: normal; opacity: 0.8; padding: 0.15rem 1.2rem 0.15rem 0; }
td { padding: 0.15rem 0; white-space: pre-line; }
figcaption { color: #555; font-size: 0.85rem; padding-top: 0.3rem; }
.empty { opacity: 0.7; margin-top: 2rem; text-align: center; }
`;
