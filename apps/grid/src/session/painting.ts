import type { At } from '@kerfbook/workbook';
import { WasShown } from './was-shown.ts';

/** What is told to whoever draws the cells: which to paint anew, and that the keys come back to them. */
export class Painting {
  readonly was = new WasShown();
  readonly #repainters = new Set<(cells: readonly At[]) => void>();
  readonly #focusers = new Set<() => void>();

  /** Called with the cells to paint anew, at once after an edit. */
  onRepaint(repaint: (cells: readonly At[]) => void): () => void {
    this.#repainters.add(repaint);
    return () => this.#repainters.delete(repaint);
  }

  repaint(cells: readonly At[]): void {
    for (const repaint of this.#repainters) repaint(cells);
  }

  /** Brings the focus back to the current cell. */
  focusGrid(): void {
    for (const focus of this.#focusers) focus();
  }

  onFocusGrid(focus: () => void): () => void {
    this.#focusers.add(focus);
    return () => this.#focusers.delete(focus);
  }
}
