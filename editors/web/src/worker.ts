// The checker, on a thread of its own: a question in, its answer out.

import init, { Bench } from "./checker/quillet_web.js";

interface Asked {
  id: number;
  question: string;
}

const bench = init().then(() => new Bench());

onmessage = async ({ data }: MessageEvent<Asked>) => {
  const { id, question } = data;
  try {
    postMessage({ id, answer: (await bench).ask(question) });
  } catch (error) {
    // Whatever was in it is gone; the page starts another.
    postMessage({ id, stopped: String(error) });
  }
};
