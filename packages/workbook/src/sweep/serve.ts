import type { BookDocument } from '@kerfbook/document';
import { loadLazy, timesMissed } from '@kerfbook/functions';
import { CompiledDocument } from './document.ts';
import type { FromSweeper, SweepAsk, ToSweeper, WorkerLine } from './messages.ts';
import type { Slice } from './slice.ts';

/** Sets that are worked out before a word to stop is heard. */
export const AT_ONCE = 8;

/** Works out sweeps in this thread, as they are asked for over the line, one after the other. */
export function serveSweeps(line: WorkerLine): void {
  const serving = new Serving(line);
  line.hear((message) => serving.hear(message as ToSweeper));
}

class Serving {
  readonly #line: WorkerLine;
  readonly #stopped = new Set<number>();
  #document: BookDocument | undefined;
  #compiled: CompiledDocument | undefined;
  /** Libraries that come late in a page are there. */
  #whole = false;
  /** What was asked for before. */
  #before: Promise<void> = Promise.resolve();

  constructor(line: WorkerLine) {
    this.#line = line;
  }

  hear(message: ToSweeper): void {
    switch (message.say) {
      case 'open':
        this.#then(() => this.#open(message.document));
        return;
      case 'sweep':
        this.#then(() => this.#sweep(message.sweep, message.ask));
        return;
      case 'stop':
        this.#stopped.add(message.sweep);
        return;
    }
  }

  #then(work: () => void | Promise<void>): void {
    this.#before = this.#before.then(work);
  }

  #open(document: BookDocument): void {
    this.#compiled?.destroy();
    this.#compiled = undefined;
    this.#document = document;
  }

  async #sweep(sweep: number, ask: SweepAsk): Promise<void> {
    try {
      const stopped = await this.#work(sweep, ask);
      this.#tell({ say: 'end', sweep, stopped });
    } catch (error) {
      this.#tell({ say: 'failed', sweep, says: sentenceOf(error) });
    } finally {
      this.#stopped.delete(sweep);
    }
  }

  /** Whether it was stopped. */
  async #work(sweep: number, ask: SweepAsk): Promise<boolean> {
    const missed = timesMissed();
    let slice = this.#slice(ask);
    try {
      for (let from = 0; from < ask.sets.length; from += AT_ONCE) {
        await this.#line.turn();
        if (this.#stopped.has(sweep)) return true;
        const sets = ask.sets.slice(from, from + AT_ONCE);
        let rows = [...slice.each(sets)];
        if (timesMissed() > missed && (await this.#bring())) {
          slice.destroy();
          slice = this.#slice(ask);
          rows = [...slice.each(sets)];
        }
        this.#tell({ say: 'values', sweep, rows });
      }
      return false;
    } finally {
      slice.destroy();
    }
  }

  #slice({ inputs, results }: SweepAsk): Slice {
    return this.#book().slice(inputs, results);
  }

  /** Loads what formulas had to do without; whether that was not there before. */
  async #bring(): Promise<boolean> {
    if (this.#whole) return false;
    await loadLazy();
    this.#whole = true;
    this.#compiled?.destroy();
    this.#compiled = undefined;
    return true;
  }

  #book(): CompiledDocument {
    if (this.#document === undefined) throw new Error('no workbook was opened to sweep');
    this.#compiled ??= CompiledDocument.of(this.#document);
    return this.#compiled;
  }

  #tell(message: FromSweeper): void {
    this.#line.send(message);
  }
}

function sentenceOf(error: unknown): string {
  if (error instanceof RangeError) {
    return 'An input of the sweep holds a formula, or is no cell of the workbook. Sweep cells that hold a value.';
  }
  return `The workbook could not be worked out: ${error instanceof Error ? error.message : String(error)}.`;
}
