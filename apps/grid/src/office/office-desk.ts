import type { OfficeAsked, OfficeTold } from './asked.ts';
import { AT_MOST, GettingOn } from './getting-on.ts';

/** How often it is looked at whether reading gets on; ms. */
const LOOK_EACH = 250;
/** Writing goes over a workbook that was opened here before. */
const AT_MOST_WRITING = 30_000;

const MB = 1024 * 1024;
/** As much as the readers take, so that none larger is put into memory. */
const MOST_BYTES = 40 * MB;

/** What became of a question. */
export type OfficeAnswer = Exclude<OfficeTold, { readonly is: 'ready' | 'onward' | 'failed' }>;

const LATE: OfficeAnswer = {
  is: 'refused',
  says: `Reading it takes more than ${AT_MOST / 1000} seconds, so it was stopped: it hardly gets on, being too large or damaged. Save the sheets you need as a file of their own.`,
};
const LATE_WRITING: OfficeAnswer = {
  is: 'refused',
  says: `Writing it takes more than ${AT_MOST_WRITING / 1000} seconds, so it was stopped.`,
};
const BROKE: OfficeAnswer = {
  is: 'refused',
  says: 'It could not be read: it needs more memory than there is, or Kerfbook has a fault here. Nothing was changed.',
};
const NOT_LOADED: OfficeAnswer = {
  is: 'refused',
  says: 'The part of Kerfbook that reads and writes files of other programs did not load. Check your connection, then try again.',
};

/**
 * Reads and writes files of office programs in a thread of its own: whatever a file is, the page goes on, and what hangs is
 * stopped. One question is asked after the other.
 */
export class OfficeDesk {
  #worker: Worker | undefined;
  #ready: Promise<boolean> | undefined;
  #kept: { readonly bytes: ArrayBuffer; readonly name: string } | undefined;
  #turn: Promise<unknown> = Promise.resolve();
  #closed = false;

  /** Takes a file for what is asked next; a sentence where it cannot be. */
  async keep(file: File): Promise<string | undefined> {
    if (file.size > MOST_BYTES) {
      return `The file has ${Math.ceil(file.size / MB).toLocaleString('en-US')} MB; ${MOST_BYTES / MB} MB is the most that is read.`;
    }
    try {
      this.#kept = { bytes: await file.arrayBuffer(), name: file.name };
    } catch {
      return 'It could not be read. Check that it is still there, then try again.';
    }
    return undefined;
  }

  /**
   * Asks it; whatever goes wrong is a refusal in one sentence.
   * @param onward hears how much of reading is done, from 0 to 1
   */
  ask(
    asked: Exclude<OfficeAsked, { readonly do: 'keep' }>,
    onward?: (share: number) => void,
  ): Promise<OfficeAnswer> {
    const answer = this.#turn.then(() => this.#ask(asked, onward));
    this.#turn = answer;
    return answer;
  }

  /** Ends what it is at. */
  close(): void {
    this.#closed = true;
    this.#end();
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#ready = undefined;
  }

  async #ask(asked: OfficeAsked, onward?: (share: number) => void): Promise<OfficeAnswer> {
    if (this.#closed) return BROKE;
    const worker = this.#begun();
    if ((await this.#ready) !== true || this.#worker !== worker) {
      this.#end();
      return NOT_LOADED;
    }
    const isWriting = asked.do === 'write';
    return new Promise((resolve) => {
      const end = (answer: OfficeAnswer): void => {
        clearInterval(timer);
        resolve(answer);
      };
      const stop = (answer: OfficeAnswer): void => {
        this.#end();
        end(answer);
      };
      const reading = new GettingOn(performance.now());
      const timer = isWriting
        ? setTimeout(() => stop(LATE_WRITING), AT_MOST_WRITING)
        : setInterval(() => {
            if (reading.isStuck(performance.now())) stop(LATE);
          }, LOOK_EACH);
      worker.onmessage = ({ data }: MessageEvent<OfficeTold>) => {
        if (data.is === 'failed') {
          console.error(data.says);
          stop(BROKE);
        } else if (data.is === 'onward') {
          reading.hear(data, performance.now());
          onward?.(data.share);
        } else if (data.is !== 'ready') end(data);
      };
      worker.onerror = (event) => {
        console.error(event.message);
        stop(BROKE);
      };
      worker.postMessage(asked);
    });
  }

  /** A worker that has the file. */
  #begun(): Worker {
    if (this.#worker !== undefined) return this.#worker;
    const worker = new Worker(new URL('./office-worker.ts', import.meta.url), {
      type: 'module',
      name: 'office',
    });
    this.#worker = worker;
    this.#ready = new Promise((resolve) => {
      worker.onmessage = ({ data }: MessageEvent<OfficeTold>) => resolve(data.is === 'ready');
      worker.onerror = () => resolve(false);
    });
    if (this.#kept !== undefined) {
      const { bytes, name } = this.#kept;
      worker.postMessage({ do: 'keep', bytes, name } satisfies OfficeAsked);
    }
    return worker;
  }
}
