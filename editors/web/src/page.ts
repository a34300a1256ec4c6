// The page: files, text, drawing, and what the buttons do.

import type { Action, Changes, Compared, Finding, Hover, Inlay, Made, Preview, Token } from "./answers";
import { choose, line, read } from "./ask";
import { Checker, NoAnswer, type Question } from "./checker";
import { setInlays, setTokens } from "./colours";
import { Editor } from "./editor";
import { button, bytesOf, find, made, save } from "./elements";
import { Files } from "./files";
import { BadLink, filesOf, linkOf } from "./link";
import { rendered } from "./markdown";
import { freeName, isName, nameOf } from "./names";
import { counted, showFindings, showPreview } from "./side";
import { tidy } from "./text";
import { withUsed } from "./uses";
import { BadArchive, packed, textOf, unpacked } from "./zip";

/** So many characters of a link some mail programs still leave whole. */
const LONG_LINK = 8_000;
const QUIET_MS = 1_000;
const DRAWN_AFTER_MS = 250;

export class Page {
  private file = "";
  private version = 0;
  /** As they were when they were opened or kept with a name: what is compared with. */
  private readonly kept = new Map<string, string>();
  private readonly checker: Checker;
  private readonly editor: Editor;
  private drawn: number | undefined;
  private quiet: number | undefined;

  constructor(
    private readonly files: Files,
    private readonly examples: ReadonlyMap<string, string>,
    private readonly writes: boolean,
    private readonly nonce: string,
  ) {
    this.checker = new Checker(() => this.files.all(), (what) => this.say(what), () => this.editor.check());
    this.editor = new Editor(find("text"), {
      ask: (ask, more) => this.asked(ask, more),
      findings: () => this.findings(),
      file: () => this.file,
      typed: (text) => this.typed(text),
      moved: () => this.drawSoon(),
      act: {
        rename: () => void this.rename(),
        format: () => void this.format(),
        actions: () => void this.actions(),
        hover: () => void this.hover(),
      },
      nonce,
    });
    for (const [name, text] of files.all()) {
      this.kept.set(name, text);
    }
    this.buttons();
    addEventListener("visibilitychange", () => void this.files.keep());
    addEventListener("pagehide", () => void this.files.keep());
  }

  /** Ends the checker as if it had died; for tests. */
  kill(): void {
    this.checker.kill();
  }

  // ── asking ──

  /** An answer, where it is still that of the text that is there. */
  private async asked<T>(ask: string, more: Record<string, unknown> = {}): Promise<T | undefined> {
    const [version, file] = [this.version, this.file];
    try {
      const answer = await this.checker.ask<T | null>({ ask, file, ...more } as Question);
      return version === this.version && file === this.file && answer !== null ? answer : undefined;
    } catch (error) {
      if (error instanceof NoAnswer) {
        return undefined;
      }
      throw error;
    }
  }

  /** An answer that the maker waits for; why there is none is said. */
  private async wanted<T>(ask: string, more: Record<string, unknown> = {}): Promise<T | undefined> {
    try {
      return await this.checker.ask<T>({ ask, file: this.file, ...more });
    } catch (error) {
      this.say(error instanceof Error ? error.message : String(error));
      return undefined;
    }
  }

  private async findings(): Promise<Finding[]> {
    const found = (await this.asked<Finding[]>("findings")) ?? [];
    showFindings(found, (it) => this.go(it), (rule) => void this.explain(rule));
    clearTimeout(this.quiet);
    this.quiet = setTimeout(() => (find("status").textContent = counted(found)), QUIET_MS);
    const [tokens, inlays] = await Promise.all([this.asked<Token[]>("tokens"), this.asked<Inlay[]>("inlays")]);
    if (tokens !== undefined && inlays !== undefined) {
      this.editor.view.dispatch({ effects: [setTokens.of(tokens), setInlays.of(inlays)] });
    }
    this.draw();
    return found;
  }

  // ── files ──

  /** Another file, as it was left. */
  open(name: string): void {
    const text = this.files.text(name);
    if (text === undefined) {
      return;
    }
    this.file = name;
    this.version += 1;
    this.editor.show(text, this.writes && !this.files.isLent(name));
    this.files.remember({ open: name });
    this.list();
    this.editor.check();
  }

  private list(): void {
    const items = this.files.names().map((name) => {
      const own = button(name.replace(/\.quillet$/, ""), () => this.open(name));
      if (name === this.file) {
        own.setAttribute("aria-current", "true");
      }
      const lent = this.files.isLent(name) ? [made("span", { class: "soft", text: "from a link" })] : [];
      return made("li", {}, [own, ...lent]);
    });
    find("files").replaceChildren(...items);
    find("lent").hidden = !this.files.names().some((it) => this.files.isLent(it));
    document.title = `${this.file.replace(/\.quillet$/, "")} – Quillet`;
  }

  private typed(text: string): void {
    this.version += 1;
    this.put(this.file, text);
  }

  private put(name: string, text: string): void {
    this.files.set(name, text);
    void this.checker.ask({ ask: "set", file: name, text }).catch(() => undefined);
  }

  /** Edits of the checker's, in the file that is open and in others. */
  private apply(changes: Changes): void {
    for (const [name, edits] of Object.entries(changes)) {
      if (name === this.file) {
        this.editor.edit(edits);
        continue;
      }
      let text = this.files.text(name) ?? "";
      for (const it of edits.toSorted((a, b) => b.from - a.from)) {
        text = text.slice(0, it.from) + it.text + text.slice(it.to);
      }
      this.put(name, text);
    }
    this.editor.check();
  }

  private go(it: Finding): void {
    if (it.file !== this.file) {
      this.open(it.file);
    }
    this.editor.go(it.from, it.to);
  }

  // ── what the buttons do ──

  private buttons(): void {
    const acts: Record<string, () => unknown> = {
      format: () => this.format(),
      mend: () => this.mend(),
      cures: () => this.actions(),
      sheet: () => this.sheet(),
      solids: () => this.solids(),
      room: () => this.room(),
      compare: () => this.compare(),
      link: () => this.link(),
      import: () => find<HTMLInputElement>("chosen").click(),
      export: () => this.export(),
      new: () => this.begin(),
      remove: () => this.remove(),
      keys: () => read("Keys", keys()),
      keep: () => {
        this.files.keepLent();
        this.open(this.file);
      },
    };
    for (const [id, act] of Object.entries(acts)) {
      find(`do-${id}`).addEventListener("click", () => void act());
    }
    const chosen = find<HTMLInputElement>("chosen");
    chosen.addEventListener("change", () => {
      void this.import([...(chosen.files ?? [])]).finally(() => (chosen.value = ""));
    });
  }

  private async format(): Promise<void> {
    this.apply((await this.wanted<Changes>("format")) ?? {});
  }

  private async mend(): Promise<void> {
    const changes = (await this.wanted<Changes>("mend")) ?? {};
    if (Object.keys(changes).length === 0) {
      this.say("There is nothing that can be mended without changing the pen.");
    }
    this.apply(changes);
  }

  private async actions(): Promise<void> {
    const { from, to } = this.editor.selected;
    const all = (await this.wanted<Action[]>("actions", { from, to })) ?? [];
    if (all.length === 0) {
      this.say("Nothing is offered here: put the cursor on what is found.");
      return;
    }
    const chosen = await choose("What can be done here", "", all.map((it): [string, Action] => [it.title, it]));
    if (chosen !== undefined) {
      this.apply(chosen.edits);
    }
  }

  private async rename(): Promise<void> {
    const at = this.editor.at;
    const word = this.editor.view.state.wordAt(at);
    const old = word === null ? "" : this.editor.view.state.sliceDoc(word.from, word.to);
    const to = await line("Another name", "Everywhere it is used it is called", old, (it) => (it === "" ? "A name is at least one letter." : undefined));
    const changes = to === undefined ? undefined : await this.wanted<Changes>("rename", { at, to });
    if (changes !== undefined) {
      this.apply(changes);
    }
  }

  private async hover(): Promise<void> {
    const found = await this.wanted<Hover | null>("hover", { at: this.editor.at });
    find("status").textContent = found ? (rendered(found.text).textContent ?? "") : "Nothing is known of this place.";
  }

  private async explain(rule: string): Promise<void> {
    const page = await this.wanted<string | null>("explain", { rule });
    if (page) {
      read(rule, rendered(page));
    }
  }

  private async save(ask: string, more: Record<string, unknown>): Promise<void> {
    const file = await this.wanted<Made>(ask, more);
    if (file !== undefined) {
      save(file.name, bytesOf(file.bytes));
      this.say(`${file.name} was made.`);
    }
  }

  private async sheet(): Promise<void> {
    const pen = (await this.asked<Preview>("preview", { at: this.editor.at }))?.name;
    const paper = await choose("The sheet for the lathe", "A PDF at true size: print it at 100 %.", [["A4", "a4"], ["Letter", "letter"]]);
    if (paper !== undefined) {
      await this.save("sheet", { paper, ...(this.isPen(pen) ? { pen } : {}) });
    }
  }

  private isPen(name: string | undefined): boolean {
    return name !== undefined && new RegExp(`^[ \\t]*pen[ \\t]+${name}\\b`, "m").test(this.editor.text);
  }

  private async solids(): Promise<void> {
    const at = (await this.asked<Preview>("preview", { at: this.editor.at }))?.name;
    const form = await choose("A solid", "Of the pen or part at the cursor.", [["STEP", "step"], ["3MF", "3mf"], ["STL", "stl"], ["Drawing, DXF", "dxf"]]);
    if (form !== undefined) {
      await this.save(form === "dxf" ? "draw" : "solid", { form, ...(this.isPen(at) ? { pen: at } : { part: at }) });
    }
  }

  private async room(): Promise<void> {
    this.say("Moving each number…");
    interface Room {
      name: string;
      written: string;
      stretches: [number, number][] | null;
      sizes: number[] | null;
      below: { rule: string } | null;
      above: { rule: string } | null;
    }
    const found = await this.wanted<{ numbers: Room[] }>("room");
    if (found === undefined) {
      return;
    }
    const size = (it: number) => String(Math.round(it * 100) / 100);
    const stretch = (it: [number, number]) => it.map(size).join(" .. ");
    const may = (it: Room) => it.sizes?.map(size).join(", ") ?? it.stretches?.map(stretch).join(", ") ?? "";
    const head = ["number", "drawn", "may be", "below", "above"].map((text) => made("th", { text }));
    const rows = found.numbers.map((it) => {
      const cells = [it.name, it.written, may(it), it.below?.rule ?? "", it.above?.rule ?? ""];
      return made("tr", {}, cells.map((text) => made("td", { text })));
    });
    read("How far each number can move", made("div", { class: "wide" }, [made("table", {}, [made("tr", {}, head), ...rows])]));
  }

  private async compare(): Promise<void> {
    const compared = await this.wanted<Compared>("compare", { old: Object.fromEntries(this.kept) });
    if (compared !== undefined) {
      save(`${this.file.replace(/\.quillet$/, "")}-compared.html`, compared.html, "text/html");
      this.say("What has changed since the page was opened was saved as a page.");
    }
  }

  private async link(): Promise<void> {
    const own = withUsed(this.file, (it) => this.files.text(it)).map((it): [string, string] => [it, this.files.text(it) ?? ""]);
    const link = location.href.replace(/#.*$/, "") + (await linkOf(own));
    history.replaceState(null, "", link);
    await navigator.clipboard?.writeText(link).catch(() => undefined);
    const length = link.length.toLocaleString("en").replace(",", " ");
    this.say(
      link.length > LONG_LINK
        ? `This link has ${length} characters; some mail programs cut it: export a file instead.`
        : `The link stands in the address line and on the clipboard: ${length} characters, ${own.length} files.`,
    );
  }

  private async export(): Promise<void> {
    const what = await choose("Export", "", [
      [this.file, "one"],
      ["All files, .zip", "all"],
    ]);
    if (what === "one") {
      save(this.file, this.files.text(this.file) ?? "", "text/plain");
    } else if (what === "all") {
      save("pens.zip", packed(this.files.all()), "application/zip");
    }
  }

  /** Files of the maker's; for a name that exists it is asked. */
  async import(chosen: File[]): Promise<void> {
    try {
      const found: [string, string][] = [];
      for (const file of chosen) {
        if (/\.zip$/i.test(file.name)) {
          found.push(...unpacked(new Uint8Array(await file.arrayBuffer())));
          continue;
        }
        const name = nameOf(file.name);
        if (name === undefined) {
          this.say(`${file.name} is no name of a pen's file here: letters, digits, dots and hyphens, then .quillet.`);
          continue;
        }
        try {
          found.push([name, textOf(new Uint8Array(await file.arrayBuffer()))]);
        } catch {
          this.say(`${file.name} is no text in UTF-8: it was not imported. Save it so, and choose it again.`);
        }
      }
      for (const [name, text] of found) {
        await this.take(name, tidy(text));
      }
    } catch (error) {
      if (!(error instanceof BadArchive)) {
        throw error;
      }
      this.say(error.message);
    }
  }

  private async take(name: string, text: string): Promise<void> {
    let as = name;
    if (this.files.has(name) && this.files.text(name) !== text) {
      const beside = freeName(name, (it) => this.files.has(it));
      const chosen = await choose(`${name} is here already`, "", [
        ["Replace it", name],
        [`Keep both, as ${beside}`, beside],
      ]);
      if (chosen === undefined) {
        return;
      }
      as = chosen;
    }
    this.put(as, text);
    this.open(as);
  }

  private async begin(): Promise<void> {
    const from = await choose("New from…", "", [["An empty file", "-- A new pen\n"], ...this.examples]);
    if (from === undefined) {
      return;
    }
    const name = await line("A new file", "It is called", "my-pen.quillet", (it) => {
      const own = it.endsWith(".quillet") ? it : `${it}.quillet`;
      return !isName(own)
        ? "Letters, digits, dots and hyphens, up to 51 of them."
        : this.files.has(own)
          ? `${own} is here already.`
          : undefined;
    });
    if (name !== undefined) {
      const own = name.endsWith(".quillet") ? name : `${name}.quillet`;
      this.put(own, from);
      this.open(own);
    }
  }

  private async remove(): Promise<void> {
    const gone = this.file;
    const sure = await choose(`Remove ${gone}?`, "It is gone from this browser; export it first if you may want it again.", [["Remove it", true]]);
    if (sure) {
      this.files.drop(gone);
      void this.checker.ask({ ask: "drop", file: gone }).catch(() => undefined);
      const next = this.files.names()[0];
      if (next !== undefined) {
        this.open(next);
      }
    }
  }

  // ── beside the text ──

  private drawSoon(): void {
    clearTimeout(this.drawn);
    this.drawn = setTimeout(() => this.draw(), DRAWN_AFTER_MS);
  }

  private draw(): void {
    void this.asked<Preview>("preview", { at: this.editor.at }).then((it) => {
      if (it !== undefined) {
        showPreview(it, this.nonce);
      }
    });
  }

  /** Says something that stays until something else is said. */
  say(what: string): void {
    find("said").textContent = what;
  }

  /** The files of the address, where it holds a link. */
  async fromLink(): Promise<boolean> {
    try {
      const files = await filesOf(location.hash);
      if (files === undefined) {
        return false;
      }
      for (const [name, text] of files) {
        // What the maker has is never overwritten.
        const as = this.files.has(name) && this.files.text(name) !== text ? freeName(name, (it) => this.files.has(it)) : name;
        if (!this.files.has(as)) {
          this.files.lend(as, tidy(text));
          void this.checker.ask({ ask: "set", file: as, text: tidy(text) }).catch(() => undefined);
        }
      }
      const first = files[0]?.[0];
      if (first !== undefined) {
        this.open(this.files.has(first) ? first : (this.files.names()[0] ?? first));
      }
      return true;
    } catch (error) {
      if (!(error instanceof BadLink)) {
        throw error;
      }
      this.say(error.message);
      return false;
    }
  }
}

function keys(): HTMLElement {
  const all = [
    ["F8", "the next finding"],
    ["Ctrl-.", "what can be done here"],
    ["F2", "another name"],
    ["Shift-Alt-F", "format"],
    ["Ctrl-Space", "what can be written here"],
    ["Ctrl-K Ctrl-I", "what is known of this place, said"],
    ["Ctrl-] and Ctrl-[", "indent, and back"],
    ["Ctrl-F", "find"],
    ["Tab", "leaves the text"],
  ];
  return made("table", {}, all.map(([key, what]) => made("tr", {}, [made("th", { text: key ?? "" }), made("td", { text: what ?? "" })])));
}
