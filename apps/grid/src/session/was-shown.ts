import type { At } from '@kerfbook/workbook';
import { ByCell } from './by-cell.ts';

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

  /** Another change: what was news is none any more. Answers with the cells that told it. */
  begin(): readonly At[] {
    const before = this.#cells;
    this.#was = new ByCell();
    this.#cells = [];
    return before;
  }

  /** These changed; of those that were seen, what they showed is news now. */
  changed(cells: readonly At[]): void {
    for (const at of cells) {
      const text = this.#shown.get(at);
      if (text === undefined) continue;
      // A change worked out in parts may come to a cell twice: what it was stays what it was.
      if (this.#was.get(at) === undefined) this.#was.set(at, text);
      this.#cells.push(at);
    }
  }
}
