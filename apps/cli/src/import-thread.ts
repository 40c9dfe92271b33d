import { Worker } from 'node:worker_threads';
import type { Imported, Shop } from '@kerfbook/interchange';

/** A file of others, and how it is to be taken; plain data. */
export interface ImportAsked {
  readonly bytes: Uint8Array;
  readonly name: string;
  readonly how: {
    readonly units?: 'us' | 'metric';
    /** No guess of what numbers are is taken. */
    readonly isBare: boolean;
    readonly parts: boolean;
    /** What its parts are cut from, and with what. */
    readonly shop?: Shop;
  };
}

/** What reading a file may take. */
export interface ImportLimits {
  readonly seconds: number;
  readonly megabytes: number;
}

/** The largest workbook takes some seconds and 300 MB; a file that wants more was made to. */
const LIMITS: ImportLimits = { seconds: 60, megabytes: 1500 };

/** Reads a file in a thread of its own, of the built command, which is ended where it takes too long or too much. */
export function importInThread(asked: ImportAsked, limits = LIMITS): Promise<Imported> {
  const { seconds, megabytes } = limits;
  const worker = new Worker(new URL('./import-worker.js', import.meta.url), {
    workerData: asked,
    // What is built runs as it is, whatever this process was started with.
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: megabytes },
  });
  return new Promise((resolve, reject) => {
    const ended = (told: Imported): void => {
      clearTimeout(timer);
      resolve(told);
      void worker.terminate();
    };
    const timer = setTimeout(
      () =>
        ended({
          ok: false,
          says: `The file takes longer to read than ${seconds} s; it is not opened.`,
        }),
      seconds * 1000,
    );
    worker.once('message', ended);
    worker.once('error', (error: Error & { readonly code?: string }) => {
      if (error.code === 'ERR_WORKER_OUT_OF_MEMORY') {
        ended({
          ok: false,
          says: `The file takes more memory to read than ${megabytes} MB; it is not opened.`,
        });
        return;
      }
      clearTimeout(timer);
      reject(error);
    });
  });
}
