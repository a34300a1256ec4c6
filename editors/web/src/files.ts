// The files of the page: in memory, in the browser's store, and in the checker.

import { Store, type Memory } from "./store";

/** So long after the last keystroke a text is kept, ms. */
const KEPT_AFTER_MS = 300;

export class Files {
  private readonly texts = new Map<string, string>();
  /** Those of a link that are not kept yet. */
  private readonly strange = new Set<string>();
  private readonly unsaved = new Set<string>();
  private readonly gone = new Set<string>();
  private memory: Memory = {};
  private timer: number | undefined;

  private constructor(
    private readonly store: Store | undefined,
    private readonly refused: () => void,
  ) {}

  /** What the browser has kept; nothing, where it keeps nothing, which is said. */
  static async open(writes: boolean, refused: () => void): Promise<Files> {
    let store: Store | undefined;
    try {
      store = await Store.open();
    } catch {
      refused();
    }
    const files = new Files(writes ? store : undefined, refused);
    if (store !== undefined) {
      files.memory = await store.memory();
      for (const [name, text] of await store.files()) {
        files.texts.set(name, text);
      }
    }
    return files;
  }

  names(): string[] {
    return [...this.texts.keys()].sort();
  }

  all(): Iterable<[string, string]> {
    return this.texts.entries();
  }

  text(name: string): string | undefined {
    return this.texts.get(name);
  }

  has(name: string): boolean {
    return this.texts.has(name);
  }

  get last(): Memory {
    return this.memory;
  }

  /** A text is another; it is kept in a moment. */
  set(name: string, text: string): void {
    this.texts.set(name, text);
    this.gone.delete(name);
    if (!this.strange.has(name)) {
      this.unsaved.add(name);
      this.soon();
    }
  }

  /** A file from a link: there to be looked at. */
  lend(name: string, text: string): void {
    this.texts.set(name, text);
    this.strange.add(name);
  }

  isLent(name: string): boolean {
    return this.strange.has(name);
  }

  /** Those from a link become the maker's own. */
  keepLent(): void {
    for (const name of this.strange) {
      this.unsaved.add(name);
    }
    this.strange.clear();
    this.soon();
  }

  drop(name: string): void {
    this.texts.delete(name);
    this.unsaved.delete(name);
    if (!this.strange.delete(name)) {
      this.gone.add(name);
      this.soon();
    }
  }

  remember(memory: Memory): void {
    this.memory = { ...this.memory, ...memory };
    void this.store?.remember(this.memory).catch(this.refused);
  }

  private soon(): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.keep(), KEPT_AFTER_MS);
  }

  /** Keeps what is not kept yet. */
  async keep(): Promise<void> {
    clearTimeout(this.timer);
    if (this.store === undefined || (this.unsaved.size === 0 && this.gone.size === 0)) {
      return;
    }
    const texts = [...this.unsaved].map((name): [string, string] => [name, this.texts.get(name) ?? ""]);
    const gone = [...this.gone];
    this.unsaved.clear();
    this.gone.clear();
    try {
      await this.store.write(texts, gone);
    } catch {
      texts.forEach(([name]) => this.unsaved.add(name));
      gone.forEach((name) => this.gone.add(name));
      this.refused();
    }
  }
}
