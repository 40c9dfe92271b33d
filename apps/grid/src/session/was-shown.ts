import type { At } from '@kerfbook/workbook';
import { ByCell } from './by-cell.ts';

/** What is told of a change: what cells were, and which of them. */
export interface News {
  readonly was: ByCell<string>;
  readonly cells: readonly At[];
}

/** What cells showed before the last change: news until the next one. */
export class WasShown {
  readonly #shown = new ByCell<string>();
  #was = new ByCell<string>();
  #cells: At[] = [];

  /** What the screen shows in a cell now, so that the next change can tell what it was. */
  note(at: At, text: string): void {
    this.#shown.set(at, text);
  }

  of(at: At): string | undefined {
    return this.#was.get(at);
  }

  /** What a cell showed before the last change that was not on the screen then. */
  tell(at: At, text: string): void {
    this.#was.set(at, text);
    this.#cells.push(at);
  }

  /** Another change: what was news is none any more. Answers with the cells that told it. */
  begin(): readonly At[] {
    const before = this.#cells;
    this.#was = new ByCell();
    this.#cells = [];
    return before;
  }

  /** What is news now, to be put back when the next change is as if it had never been. */
  get news(): News {
    return { was: this.#was, cells: this.#cells };
  }

  /** Puts back what was news. Answers with the cells that told it until now. */
  putBack({ was, cells }: News): readonly At[] {
    const before = this.#cells;
    this.#was = was;
    this.#cells = [...cells];
    return before;
  }

  /** These changed; of those that were seen, what they showed is news now. */
  changed(cells: readonly At[]): void {
    for (const at of cells) {
      const text = this.#shown.get(at);
      if (text === undefined) continue;
      // A change worked out in parts may come to a cell twice: what it was stays what it was.
      if (this.#was.get(at) !== undefined) continue;
      this.#was.set(at, text);
      this.#cells.push(at);
    }
  }
}
