import { type BookDocument, type Edit, saveText } from '@kerfbook/workbook';
import type { BookStore } from '../book-store.ts';
import { Bookcase, type BookcaseParts } from '../bookcase.ts';
import { MemoryStore } from '../memory-store.ts';
import type { LogEntry } from '../records.ts';
import type { ShippedTemplate } from '../templates.ts';

/** An invented bench: a length, and twice that length. */
export const BENCH: BookDocument = {
  kerfbook: 1,
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
export function lengthEdit(text: string): Edit {
  return { do: 'enter', sheet: 's1', cells: [{ row: 0, column: 1, text }] };
}

/** Stands in for the device's storage: it lasts as long as the test, and fails when told to. */
export class TestStore extends MemoryStore {
  override readonly lasting = true;
  /** Thrown by every write while it is set. */
  trouble: Error | undefined;
  readonly appended: LogEntry[] = [];

  override async append(entries: readonly LogEntry[]): Promise<void> {
    if (this.trouble !== undefined) throw this.trouble;
    this.appended.push(...entries);
    return super.append(entries);
  }

  override async put(record: Parameters<BookStore['put']>[0]): Promise<void> {
    if (this.trouble !== undefined) throw this.trouble;
    return super.put(record);
  }

  override async snapshot(...given: Parameters<BookStore['snapshot']>): Promise<void> {
    if (this.trouble !== undefined) throw this.trouble;
    return super.snapshot(...given);
  }
}

/** Opens a bookcase as a page does; `store` outlives it as a device's storage outlives a page. */
export function openPage(store: BookStore, parts: Partial<BookcaseParts> = {}): Promise<Bookcase> {
  return Bookcase.start({
    templates: [BENCH_TEMPLATE],
    openStore: async () => store,
    keeper: { idle: 60_000, retry: 60_000 },
    ...parts,
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
