import { Worker } from 'node:worker_threads';
import { Sweeper } from '@kerfbook/workbook/sweep';
import type { SweepThread } from './io.ts';

/** A thread that sweeps workbooks, of the built command. */
export function startSweepThread(): SweepThread {
  // What is built runs as it is, whatever this process was started with.
  const worker = new Worker(new URL('./sweep-worker.js', import.meta.url), { execArgv: [] });
  const sweeper = new Sweeper({
    send: (message) => worker.postMessage(message),
    hear: (listener) => worker.on('message', listener),
  });
  worker.on('error', (error: Error) => sweeper.lost(error.message));
  worker.on('exit', (code) => sweeper.lost(`it ended with ${code}`));
  return {
    sweeper,
    end: async () => {
      await worker.terminate();
    },
  };
}
