// What the browser keeps: the files and the page's own memory, in IndexedDB.

const NAME = "quillet";

/** What is kept of the page beside its files. */
export interface Memory {
  open?: string;
  seen?: boolean;
}

function done<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("not kept"));
  });
}

export class Store {
  private constructor(private readonly base: IDBDatabase) {}

  /** Opens it; fails where the browser keeps nothing. */
  static async open(): Promise<Store> {
    const request = indexedDB.open(NAME, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore("files", { keyPath: "name" });
      request.result.createObjectStore("page");
    };
    const store = new Store(await done(request));
    // Asked once; a browser that says no may still keep them.
    void navigator.storage?.persist?.().catch(() => false);
    return store;
  }

  async files(): Promise<Map<string, string>> {
    const files = this.base.transaction("files").objectStore("files");
    const all = (await done(files.getAll())) as { name: string; text: string }[];
    return new Map(all.map((it) => [it.name, it.text]));
  }

  /** Keeps texts and forgets files, all or none of it. */
  async write(texts: Iterable<[string, string]>, gone: Iterable<string>): Promise<void> {
    const change = this.base.transaction("files", "readwrite");
    const files = change.objectStore("files");
    for (const [name, text] of texts) {
      files.put({ name, text, changed: Date.now() });
    }
    for (const name of gone) {
      files.delete(name);
    }
    await new Promise<void>((resolve, reject) => {
      change.oncomplete = () => resolve();
      change.onabort = () => reject(change.error ?? new Error("not kept"));
    });
  }

  async memory(): Promise<Memory> {
    const page = this.base.transaction("page").objectStore("page");
    return ((await done(page.get("memory"))) as Memory | undefined) ?? {};
  }

  async remember(memory: Memory): Promise<void> {
    const page = this.base.transaction("page", "readwrite").objectStore("page");
    await done(page.put(memory, "memory"));
  }
}
