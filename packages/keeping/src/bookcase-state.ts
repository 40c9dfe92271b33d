import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Keeping } from './persistence.ts';
import type { BookHead, Origin } from './records.ts';
import type { SaveState } from './save-state.ts';
import type { ShippedTemplate } from './templates.ts';

/** The workbook at hand. A new object whenever another workbook, or the same one anew, is shown. */
export interface Current {
  readonly id: string;
  readonly book: OpenWorkbook;
  readonly origin: Origin;
  readonly access: 'write' | 'read';
}

/** Something the maker is told and can put away. */
export interface Notice {
  readonly id: number;
  readonly says: string;
  /** More about it stands in the list of workbooks. */
  readonly inList?: boolean;
}

export interface BookcaseState {
  readonly current: Current;
  readonly save: SaveState;
  /** For a reading tab: the writing one has gone, so this one may write. */
  readonly canTakeOver: boolean;
  readonly keeping: Keeping;
  readonly notices: readonly Notice[];
  /** How often the list of workbooks was to be shown unasked. */
  readonly listAsked: number;
}

/** What the list shows beside a workbook that could not be opened, or that left edits aside. */
export interface Beside {
  /** Why it could not be opened when that was last tried. */
  readonly unopened?: string;
  /** Keys of edits that no longer fitted it. */
  readonly aside: readonly string[];
}

/** Everything the list of workbooks shows. */
export interface Listing {
  readonly templates: readonly (ShippedTemplate & { readonly changed?: BookHead })[];
  readonly own: readonly BookHead[];
  readonly trash: readonly BookHead[];
  readonly beside: ReadonlyMap<string, Beside>;
}

/** What an action on workbooks came to: done, or a sentence that says why not. */
export type Done = { readonly ok: true } | { readonly ok: false; readonly says: string };

export const DONE = { ok: true } as const;
export const notDone = (says: string): Done => ({ ok: false, says });

/** A value that can be watched: what React's `useSyncExternalStore` asks for. */
export class Watched<T> {
  #value: T;
  readonly #watchers = new Set<() => void>();

  constructor(value: T) {
    this.#value = value;
  }

  get value(): T {
    return this.#value;
  }

  set(value: T): void {
    this.#value = value;
    for (const watcher of this.#watchers) watcher();
  }

  watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };
}
