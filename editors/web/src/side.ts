// What stands beside the text: the drawing with its measures, and what is found.

import type { Finding, Preview } from "./answers";
import { button, find, made } from "./elements";

/** The pen or part at the cursor; `nonce` lets a drawing bring its colours for the dark. */
export function showPreview(preview: Preview | undefined, nonce: string): void {
  const side = find("drawing");
  if (!preview) {
    side.replaceChildren(made("p", { class: "soft", text: "There is no pen or part here that can be drawn yet." }));
    return;
  }
  const measures = preview.measures.map(([what, value]) => `${what} ${value}`).join("; ");
  const pictures = preview.pictures.map(({ says, svg }) => {
    const image = made("img");
    // Never inline: what a design says cannot become markup.
    image.src = `data:image/svg+xml,${encodeURIComponent(svg.replace("<style>", `<style nonce="${nonce}">`))}`;
    image.alt = `${preview.title}, ${says}. ${measures}`;
    return made("figure", {}, [image, made("figcaption", { text: says })]);
  });
  const rows = preview.measures.map(([what, value]) => made("tr", {}, [made("th", { text: what }), made("td", { text: value })]));
  const legend = preview.legend.map((it) => made("li", { text: it }));
  side.replaceChildren(
    made("h2", { text: preview.title }),
    ...pictures,
    ...(legend.length === 0 ? [] : [made("details", {}, [made("summary", { text: "What the numbers point at" }), made("ol", { class: "legend" }, legend)])]),
    made("table", {}, rows),
  );
}

/** What is found, as buttons that go there. */
export function showFindings(findings: Finding[], go: (it: Finding) => void, explain: (rule: string) => void): void {
  const rows = findings.map((it) => {
    const place = button("", () => go(it), { class: "place" });
    const what = made("span", {}, [made("b", { text: it.severity }), ` ${it.message}`]);
    place.append(what);
    if (it.hint !== null) {
      place.append(made("span", { class: "hint-line", text: it.hint }));
    }
    if (it.pens.length > 0) {
      place.append(made("span", { class: "soft", text: `in ${it.pens.join(", ")}` }));
    }
    const rule = button(it.rule, () => explain(it.rule), { class: "rule", title: `What ${it.rule} means` });
    return made("li", { class: it.severity }, [place, rule]);
  });
  find("found").replaceChildren(...rows);
  find("count").textContent = counted(findings);
}

export function counted(findings: Finding[]): string {
  if (findings.length === 0) {
    return "Nothing found";
  }
  const count = (severity: string) => findings.filter((it) => it.severity === severity).length;
  const words = ["error", "warning", "note"].flatMap((it) => {
    const many = count(it);
    return many === 0 ? [] : [`${many} ${it}${many === 1 ? "" : "s"}`];
  });
  return words.join(", ");
}
