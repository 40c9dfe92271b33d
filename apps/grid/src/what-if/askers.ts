import { type Asker, SharedAsker } from '@kerfbook/studies';
import type { BookDocument } from '@kerfbook/workbook';
import { Sweeper } from '@kerfbook/workbook/sweep';

/** Threads at the most: each has the whole workbook. */
const MOST = 4;

/** Threads that work studies out, started when something is first asked and ended with the page. */
export class Askers {
  #threads: readonly { readonly worker: Worker; readonly sweeper: Sweeper }[] = [];
  #open: BookDocument | undefined;

  /** Whoever answers for a workbook as it is now. */
  for(document: BookDocument): Asker {
    if (this.#threads.length === 0) {
      const count = Math.max(1, Math.min(MOST, (navigator.hardwareConcurrency || 2) - 1));
      this.#threads = Array.from({ length: count }, started);
    }
    if (this.#open !== document) {
      for (const { sweeper } of this.#threads) sweeper.open(document);
      this.#open = document;
    }
    return new SharedAsker(this.#threads.map(({ sweeper }) => sweeper));
  }

  end(): void {
    for (const { worker } of this.#threads) worker.terminate();
    this.#threads = [];
    this.#open = undefined;
  }
}

function started(): { readonly worker: Worker; readonly sweeper: Sweeper } {
  const worker = new Worker(new URL('./study-worker.ts', import.meta.url), {
    type: 'module',
    name: 'study',
  });
  const sweeper = new Sweeper({
    send: (message) => worker.postMessage(message),
    hear: (listener) => worker.addEventListener('message', ({ data }) => listener(data)),
  });
  worker.onerror = (event) => sweeper.lost(event.message || 'it could not be started');
  return { worker, sweeper };
}
