// Small dialogs: a question with its choices, a text to be typed, something to be read.

import { button, made } from "./elements";

function dialog(title: string, body: Node[], closed: () => void): HTMLDialogElement {
  const heading = made("h2", { text: title });
  const box = made("dialog", {}, [heading, ...body]);
  heading.id = "dialog-title";
  box.setAttribute("aria-labelledby", heading.id);
  box.addEventListener("close", () => {
    box.remove();
    closed();
  });
  document.body.append(box);
  box.showModal();
  return box;
}

/** One of some choices; none where the maker turns away. */
export function choose<T>(title: string, said: string, choices: [string, T][]): Promise<T | undefined> {
  return new Promise((answer) => {
    let chosen: T | undefined;
    const buttons = choices.map(([text, value]) =>
      button(text, () => {
        chosen = value;
        box.close();
      }),
    );
    const row = made("div", { class: "choices" }, [...buttons, button("Cancel", () => box.close(), { class: "quiet" })]);
    const box = dialog(title, [...(said === "" ? [] : [made("p", { text: said })]), row], () => answer(chosen));
  });
}

/** A line of text; none where the maker turns away. */
export function line(title: string, label: string, value: string, wrong: (text: string) => string | undefined): Promise<string | undefined> {
  return new Promise((answer) => {
    let given: string | undefined;
    const input = made("input");
    const why = made("p", { class: "why" });
    why.setAttribute("role", "alert");
    input.value = value;
    const form = made("form", {}, [
      made("label", {}, [label, input]),
      why,
      made("div", { class: "choices" }, [made("button", { text: "OK" }), button("Cancel", () => box.close(), { class: "quiet" })]),
    ]);
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      const said = wrong(input.value);
      if (said === undefined) {
        given = input.value;
        box.close();
      } else {
        why.textContent = said;
      }
    });
    const box = dialog(title, [form], () => answer(given));
    input.select();
  });
}

/** Something to be read. */
export function read(title: string, body: Node): void {
  const box = dialog(title, [body, made("div", { class: "choices" }, [button("Close", () => box.close())])], () => undefined);
}
