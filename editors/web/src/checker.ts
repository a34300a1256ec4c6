// The page's side of the checker: one worker, started again where it stops.

export interface Question {
  ask: string;
  [key: string]: unknown;
}

interface Waiting {
  resolve: (answer: unknown) => void;
  reject: (why: Error) => void;
}

/** Twice within so long, it stays stopped, ms. */
const SOON_MS = 10_000;

/** What the checker cannot answer, as a sentence for the maker. */
export class NoAnswer extends Error {}

export class Checker {
  private worker: Worker | undefined;
  private readonly waiting = new Map<number, Waiting>();
  private next = 0;
  private stoppedAt = -Infinity;

  /**
   * @param texts what is sent again to a new worker, by file
   * @param say tells the maker; the text is kept whatever happens here
   */
  constructor(
    private readonly texts: () => Iterable<[string, string]>,
    private readonly say: (what: string) => void,
    private readonly again: () => void,
  ) {
    this.start();
  }

  private start(): void {
    const worker = new Worker("worker.js", { type: "module" });
    worker.onmessage = ({ data }) => {
      const own = this.waiting.get(data.id);
      this.waiting.delete(data.id);
      if (data.stopped !== undefined) {
        own?.reject(new NoAnswer("the checker stopped"));
        this.stopped();
        return;
      }
      const answer: unknown = JSON.parse(data.answer);
      const error = (answer as { error?: string } | null)?.error;
      if (error === undefined) {
        own?.resolve(answer);
      } else {
        own?.reject(new NoAnswer(error));
      }
    };
    worker.onerror = () => this.stopped();
    this.worker = worker;
    for (const [file, text] of this.texts()) {
      void this.ask({ ask: "set", file, text }).catch(() => undefined);
    }
  }

  private stopped(): void {
    this.worker?.terminate();
    this.worker = undefined;
    for (const { reject } of this.waiting.values()) {
      reject(new NoAnswer("the checker stopped"));
    }
    this.waiting.clear();
    const now = performance.now();
    const twice = now - this.stoppedAt < SOON_MS;
    this.stoppedAt = now;
    if (twice) {
      this.say("The checker stopped again and stays stopped; the text is kept. Load the page anew to try once more.");
      return;
    }
    this.say("The checker stopped; the text is kept. It was started again.");
    this.start();
    this.again();
  }

  /** Ends its worker as if it had died; for tests. */
  kill(): void {
    this.stopped();
  }

  /** Answers a question; fails with a sentence where there is no answer. */
  ask<T>(question: Question): Promise<T> {
    const worker = this.worker;
    if (worker === undefined) {
      return Promise.reject(new NoAnswer("the checker is stopped"));
    }
    const id = this.next++;
    return new Promise<T>((resolve, reject) => {
      this.waiting.set(id, { resolve: resolve as (answer: unknown) => void, reject });
      worker.postMessage({ id, question: JSON.stringify(question) });
    });
  }
}
