import { type BookDocument, type Edit, saveText } from '@kerfbook/workbook';
import type { BookStore } from '../book-store.ts';
import { Bookcase, type BookcaseInput } from '../bookcase.ts';
import type { Done } from '../bookcase-state.ts';
import { saveAsOwn } from '../filing.ts';
import { MemoryStore } from '../memory-store.ts';
import type { KeptBook, LogEntry, Values } from '../records.ts';
import type { ShippedTemplate } from '../templates.ts';

/** An invented bench: a length, and twice that length. */
export const BENCH: BookDocument = {
  kerfbook: 8,
  title: 'Bench',
  about: 'An invented bench for tests.',
  units: 'us',
  sheets: [
    {
      id: 's1',
      name: 'Brief',
      columns: [{ id: 'c1' }, { id: 'c2' }],
      rows: [
        {
          id: 'r1',
          cells: {
            c1: { value: 'Length' },
            c2: { value: 40, quantity: 'length', role: 'input', name: 'bench_length' },
          },
        },
        {
          id: 'r2',
          cells: {
            c1: { value: 'Twice' },
            c2: { formula: '=bench_length*2', quantity: 'length', name: 'twice' },
          },
        },
      ],
    },
  ],
  checks: [],
  tables: [],
};

export const BENCH_TEXT = saveText(BENCH);

export const BENCH_TEMPLATE: ShippedTemplate = {
  key: 'bench',
  title: 'Bench',
  about: 'An invented bench for tests.',
  text: async () => BENCH_TEXT,
};

/** Types a length into the bench. */
export function lengthEdit(text: string, sheet = 's1'): Edit {
  return { do: 'enter', sheet, cells: [{ row: 0, column: 1, text }] };
}

/** Keeps the workbook at hand as a template of the maker's own, and goes on in that. */
export async function saveAndOpen(page: Bookcase, name: string): Promise<Done> {
  const done = await saveAsOwn(page, name);
  return done.ok ? page.open(done.id) : done;
}

type Change = 'append' | 'put' | 'snapshot' | 'setAll' | 'relabel' | 'destroy';

/** Stands in for the device's storage: it lasts as long as the test, and fails when told to. */
export class TestStore extends MemoryStore {
  override readonly lasting = true;
  /** Thrown by every write while it is set. */
  trouble: Error | undefined;
  /** Thrown by the writes this picks, counted from 1. */
  fails: ((write: number, change: Change) => boolean) | undefined;
  /** Workbooks whose records the browser cannot read. */
  readonly unreadable = new Set<string>();
  readonly appended: LogEntry[] = [];
  writes = 0;

  #write(change: Change): void {
    this.writes += 1;
    if (this.trouble !== undefined) throw this.trouble;
    if (this.fails?.(this.writes, change) === true) {
      throw new DOMException('no room', 'QuotaExceededError');
    }
  }

  override async read(id: string): Promise<KeptBook | undefined> {
    if (this.unreadable.has(id)) throw new DOMException('lost', 'UnknownError');
    return super.read(id);
  }

  override async append(...given: Parameters<BookStore['append']>): Promise<void> {
    this.#write('append');
    this.appended.push(...given[0]);
    return super.append(...given);
  }

  override async put(...given: Parameters<BookStore['put']>): Promise<void> {
    this.#write('put');
    return super.put(...given);
  }

  override async snapshot(...given: Parameters<BookStore['snapshot']>): Promise<void> {
    this.#write('snapshot');
    return super.snapshot(...given);
  }

  override async set(key: string, value: unknown): Promise<void> {
    return this.setAll(new Map([[key, value]]));
  }

  override async setAll(values: Values): Promise<void> {
    this.#write('setAll');
    return super.setAll(values);
  }

  override async relabel(...given: Parameters<BookStore['relabel']>): Promise<void> {
    this.#write('relabel');
    return super.relabel(...given);
  }

  override async destroy(id: string): Promise<void> {
    this.#write('destroy');
    return super.destroy(id);
  }
}

/** What a browser throws where the device is full. */
export const full = (): DOMException => new DOMException('no room', 'QuotaExceededError');

/** Opens a bookcase as a page does; `store` outlives it as a device's storage outlives a page. */
export function openPage(store: BookStore, input: Partial<BookcaseInput> = {}): Promise<Bookcase> {
  return Bookcase.start({
    templates: [BENCH_TEMPLATE],
    openStore: async () => store,
    keeper: { idle: 60_000, retry: 60_000 },
    ...input,
  });
}

/** Carries an edit out on the workbook at hand and keeps it, as the app does. */
export function change(bookcase: Bookcase, edit: Edit): void {
  const result = bookcase.current.book.apply(edit);
  if (!result.ok) throw new Error(result.says);
  bookcase.record(result.edit);
}

/** What a named cell shows. */
export function shows(bookcase: Bookcase, name: string): string {
  return bookcase.current.book.named(name)?.shown.text ?? '';
}
