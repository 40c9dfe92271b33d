import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Keeping } from './persistence.ts';
import type { BookHead, Origin } from './records.ts';
import type { SaveState } from './save-state.ts';
import type { ShippedTemplate } from './templates.ts';

/** The workbook at hand. A new object whenever another workbook, or the same one anew, is shown. */
export interface Current {
  /** Of the workbook on this device. */
  readonly id: string;
  /** Open; changes of it are told to the bookcase. */
  readonly book: OpenWorkbook;
  /** Where it came from. */
  readonly origin: Origin;
  /** `read` where another tab writes it. */
  readonly access: 'write' | 'read';
}

/** Something the maker is told and can put away. */
export interface Notice {
  /** Grows with every notice. */
  readonly id: number;
  /** One sentence or two. */
  readonly says: string;
  /** More about it stands in the list of workbooks. */
  readonly inList?: boolean;
  /** Id of the workbook that it speaks of as the one at hand: it goes when another one is shown. */
  readonly of?: string;
}

/** How things stand with the workbooks on this device. */
export interface BookcaseState {
  /** The workbook at hand. */
  readonly current: Current;
  /** Whether it is safe. */
  readonly save: SaveState;
  /** For a reading tab: the writing one has gone, so this one may write. */
  readonly canTakeOver: boolean;
  /** Whether the browser promised to clear nothing; not looked at before something was saved. */
  readonly keeping: Keeping;
  /** Oldest first. */
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
  /** Built in; `changed` is the working copy where it was changed. */
  readonly templates: readonly (ShippedTemplate & { readonly changed?: BookHead })[];
  /** The maker's own, changed working copies with them, newest first. */
  readonly own: readonly BookHead[];
  /** Thrown away and still there, newest first. */
  readonly trash: readonly BookHead[];
  /** What is kept beside workbooks, by their ids. */
  readonly beside: ReadonlyMap<string, Beside>;
  /** The id of the workbook that is the shop's; left out where none is. */
  readonly shops?: string;
}

/** What an action on workbooks came to: done, or a sentence that says why not. */
export type Done = { readonly ok: true } | { readonly ok: false; readonly says: string };

/** What an action that went well came to. */
export const DONE = { ok: true } as const;
/** What an action came to that could not be done, with the reason. */
export const notDone = (says: string): Done => ({ ok: false, says });

/** A value that can be watched: what React's `useSyncExternalStore` asks for. */
export class Watched<T> {
  #value: T;
  readonly #watchers = new Set<() => void>();

  constructor(value: T) {
    this.#value = value;
  }

  /** As it is now. */
  get value(): T {
    return this.#value;
  }

  /** Puts another value in its place and tells all who watch, before it returns. */
  set(value: T): void {
    this.#value = value;
    for (const watcher of this.#watchers) watcher();
  }

  /** Calls at every change from now on; answers how to stop that. */
  watch = (watcher: () => void): (() => void) => {
    this.#watchers.add(watcher);
    return () => this.#watchers.delete(watcher);
  };
}
