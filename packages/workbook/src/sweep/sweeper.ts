import type { BookDocument } from '@kerfbook/document';
import type { CellValue } from '../api.ts';
import type { FromSweeper, Line, SweepAsk, ToSweeper } from './messages.ts';

/** A sweep that could not be carried out to its end; its message is a sentence for a person. */
export class SweepFailed extends Error {
  constructor(says: string) {
    super(says);
    this.name = 'SweepFailed';
  }
}

/** A sweep on its way. */
export interface Sweep {
  /**
   * Resolves when it is over, with whether it was stopped before its end.
   *
   * @throws SweepFailed as a rejection, with a sentence
   */
  readonly ended: Promise<{ readonly stopped: boolean }>;
  /** Ends it after the few sets that are being worked out; nothing is heard of it any more. */
  stop(): void;
}

interface Running {
  readonly hear: (rows: readonly (readonly CellValue[])[], done: number) => void;
  readonly end: (result: { readonly stopped: boolean }) => void;
  readonly fail: (reason: SweepFailed) => void;
  done: number;
  stopped: boolean;
}

/**
 * Asks another thread ({@link serveSweeps}) what results of a workbook come to for many sets of inputs.
 * The workbook there is a copy: nothing that is asked touches one that is open.
 */
export class Sweeper {
  readonly #line: Line;
  readonly #running = new Map<number, Running>();
  #last = 0;

  constructor(line: Line) {
    this.#line = line;
    line.hear((message) => this.#hear(message as FromSweeper));
  }

  /** The workbook that is swept from now on; one that `loadText` or `loadValue` has checked. */
  open(document: BookDocument): void {
    this.#say({ say: 'open', document });
  }

  /** `hear` gets rows of results as they come, in the order of the sets, and how many sets are done. */
  sweep(ask: SweepAsk, hear: Running['hear']): Sweep {
    this.#last += 1;
    const sweep = this.#last;
    const ended = new Promise<{ readonly stopped: boolean }>((end, fail) => {
      this.#running.set(sweep, { hear, end, fail, done: 0, stopped: false });
    });
    this.#say({ say: 'sweep', sweep, ask });
    return {
      ended,
      stop: () => {
        const running = this.#running.get(sweep);
        if (running === undefined) return;
        running.stopped = true;
        this.#say({ say: 'stop', sweep });
      },
    };
  }

  /** The other thread is gone: whatever was asked of it has failed. `why` is what the system says. */
  lost(why: string): void {
    for (const { fail } of this.#running.values()) {
      fail(new SweepFailed(`The thread that worked the sweep out is gone (${why}).`));
    }
    this.#running.clear();
  }

  #hear(message: FromSweeper): void {
    const running = this.#running.get(message.sweep);
    if (running === undefined) return;
    if (message.say === 'values') {
      if (running.stopped) return;
      running.done += message.rows.length;
      running.hear(message.rows, running.done);
      return;
    }
    this.#running.delete(message.sweep);
    if (message.say === 'end') running.end({ stopped: message.stopped || running.stopped });
    else running.fail(new SweepFailed(message.says));
  }

  #say(message: ToSweeper): void {
    this.#line.send(message);
  }
}
