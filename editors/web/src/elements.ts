// Elements of the page, found by their names and made in one call.

export function find<T extends HTMLElement>(id: string): T {
  const found = document.getElementById(id);
  if (found === null) {
    throw new Error(`the page has no ${id}`);
  }
  return found as T;
}

/** An element with a class, text or children. */
export function made<K extends keyof HTMLElementTagNameMap>(
  kind: K,
  about: { class?: string; text?: string; title?: string } = {},
  children: (Node | string)[] = [],
): HTMLElementTagNameMap[K] {
  const element = document.createElement(kind);
  if (about.class !== undefined) {
    element.className = about.class;
  }
  if (about.text !== undefined) {
    element.textContent = about.text;
  }
  if (about.title !== undefined) {
    element.title = about.title;
  }
  element.append(...children);
  return element;
}

export function button(text: string, act: () => void, about: { class?: string; title?: string } = {}): HTMLButtonElement {
  const element = made("button", { ...about, text });
  element.type = "button";
  element.addEventListener("click", act);
  return element;
}

/** Saves bytes as a file of the maker's. */
export function save(name: string, bytes: Uint8Array<ArrayBuffer> | string, kind = "application/octet-stream"): void {
  const address = URL.createObjectURL(new Blob([bytes], { type: kind }));
  const link = document.createElement("a");
  link.href = address;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}

/** The bytes of some base64. */
export function bytesOf(coded: string): Uint8Array<ArrayBuffer> {
  const binary = atob(coded);
  const bytes = new Uint8Array(binary.length);
  for (let at = 0; at < binary.length; at += 1) {
    bytes[at] = binary.charCodeAt(at);
  }
  return bytes;
}
