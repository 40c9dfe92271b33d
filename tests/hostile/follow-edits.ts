import {
  type BookDocument,
  type Change,
  loadText,
  type OpenOptions,
  replay,
  saveText,
  Workbook,
} from '@kerfbook/workbook';
import { CompiledDocument } from '@kerfbook/workbook/sweep';
import { firstBook, type Run, type Step } from './edit-steps.ts';
import { JUDGE } from './judge.ts';

/** An open workbook whose new ids count up: the same steps make the same document. */
export function openBook(document: BookDocument, options: OpenOptions = {}): Workbook {
  let next = 0;
  return Workbook.open(document, {
    ...options,
    makeId: (kind) => {
      next += 1;
      return `${kind}n${next}`;
    },
  });
}

/** What every cell comes to, by its address: `full` with the sentences of errors. */
function valuesOf(
  book: Workbook,
  full?: 'full',
  source: Pick<Workbook, 'value'> = book,
): Map<string, string> {
  const values = new Map<string, string>();
  for (const { id, rows, columns } of book.sheets()) {
    for (let row = 0; row < rows; row += 1) {
      for (let column = 0; column < columns; column += 1) {
        const value = source.value({ sheet: id, row, column });
        if (value.kind === 'empty') continue;
        const short = full === undefined && value.kind === 'error';
        const told = short ? value.error.word : JSON.stringify(value);
        values.set(`${id} ${row} ${column}`, told);
      }
    }
  }
  return values;
}

function reloaded(book: Workbook): BookDocument {
  const loaded = loadText(saveText(book.document()));
  if (!loaded.ok) throw new Error(`what was saved does not load: ${loaded.says}`);
  return loaded.document;
}

const only = (count: number) => {
  let left = count;
  return () => {
    left -= 1;
    return left > 0;
  };
};

/** What differs between two lists of values, in words; nothing where they are the same. */
function difference(is: Map<string, string>, was: Map<string, string>): string | undefined {
  for (const key of new Set([...is.keys(), ...was.keys()])) {
    const [here, there] = [is.get(key), was.get(key)];
    if (here !== there) return `${key}: ${here ?? 'empty'}, not ${there ?? 'empty'}`;
  }
  return undefined;
}

/** What a workbook saved, loaded and opened, judged, or compiled, shows otherwise than it does now. */
export function differsReopened(book: Workbook): string | undefined {
  const document = reloaded(book);
  const again = openBook(document);
  const now = valuesOf(book, 'full');
  const value = difference(now, valuesOf(again, 'full'));
  if (value !== undefined) return value;
  const judged = difference(now, valuesOf(openBook(document, JUDGE), 'full'));
  if (judged !== undefined) return `judged, ${judged}`;
  const compiled = CompiledDocument.of(document);
  const other = difference(now, valuesOf(book, 'full', compiled));
  compiled.destroy();
  if (other !== undefined) return `compiled, ${other}`;
  for (const ask of ['checks', 'clashes', 'checkClashes', 'names'] as const) {
    const [here, there] = [JSON.stringify(book[ask]()), JSON.stringify(again[ask]())];
    if (here !== there) return `${ask}: ${here}, not ${there}`;
  }
  return undefined;
}

type Result = ReturnType<Workbook['apply']> | undefined;

/** Carries steps out on a fresh workbook and holds what is promised of each. */
class Follower {
  readonly book: Workbook;
  readonly #began: BookDocument;
  readonly #first: string;
  /** What a log would keep of all that was carried out. */
  readonly #log: Change[] = [];
  #shown: Map<string, string>;

  constructor(rows: number) {
    this.book = openBook(firstBook(rows));
    this.#began = this.book.document();
    this.#first = saveText(this.#began);
    this.#shown = valuesOf(this.book);
  }

  /** @throws an Error where a promise is broken. */
  step(step: Step): void {
    if ('goOn' in step) {
      const told = this.book.goOn(only(step.goOn));
      this.#told(told.changed, told.structure);
      return;
    }
    if ('long' in step) {
      this.#long(step);
      return;
    }
    const before = saveText(this.book.document());
    this.book.pace = step.pace === undefined ? undefined : only(step.pace);
    const result: Result = 'edit' in step ? this.book.apply(step.edit) : this.book[step.turn]();
    if (result === undefined || !result.ok) {
      if (saveText(this.book.document()) !== before) {
        throw new Error(`a refused edit changed the document: ${result?.says}`);
      }
      if (result?.thrown !== undefined) throw result.thrown;
      const told = this.book.pending ? this.book.goOn(only(1)) : undefined;
      this.#told(told?.changed ?? [], told?.structure ?? false);
      return;
    }
    this.#log.push(...result.edit.changes);
    this.#told(result.changed, result.structure);
  }

  #long({ long: parts, keep }: Extract<Step, { long: unknown }>): void {
    const before = saveText(this.book.document());
    this.book.pace = undefined;
    const long = this.book.beginLong();
    if (!long.ok) throw new Error(long.says);
    for (const part of parts) {
      const result = long.apply(part);
      if (!result.ok && result.thrown !== undefined) throw result.thrown;
    }
    if (keep) {
      this.#log.push(...long.keep().edit.changes);
    } else {
      long.drop();
      if (saveText(this.book.document()) !== before) {
        throw new Error('a dropped edit left something behind');
      }
    }
    this.#told([], true);
  }

  #told(changed: readonly { sheet: string; row: number; column: number }[], all: boolean): void {
    const now = valuesOf(this.book);
    const was = this.#shown;
    this.#shown = now;
    if (all) return;
    const told = new Set(changed.map(({ sheet, row, column }) => `${sheet} ${row} ${column}`));
    if (told.size !== changed.length) throw new Error('a changed cell was told twice');
    for (const key of new Set([...now.keys(), ...was.keys()])) {
      if (now.get(key) !== was.get(key) && !told.has(key)) {
        throw new Error(`${key} was not told: ${was.get(key)} became ${now.get(key)}`);
      }
    }
  }

  /** @throws an Error where the workbook shows something else than saved and opened again. */
  compare(): void {
    while (this.book.pending) {
      const told = this.book.goOn(only(2));
      this.#told(told.changed, told.structure);
    }
    const replayed = replay(this.#began, this.#log);
    if (replayed.conflicts.length > 0)
      throw new Error(`a log is in conflict: ${replayed.conflicts[0]?.says}`);
    if (saveText(replayed.document) !== saveText(this.book.document())) {
      throw new Error('a log carried out without an engine gives another document');
    }
    const differs = differsReopened(this.book);
    if (differs !== undefined) throw new Error(`opened again it shows otherwise: ${differs}`);
  }

  /** @throws an Error where undoing everything does not lead back to where it began. */
  undoAll(): void {
    this.book.pace = undefined;
    while (this.book.canUndo) {
      const result = this.book.undo();
      if (result?.ok !== true) throw result?.thrown ?? new Error(`not undone: ${result?.says}`);
    }
    const now = saveText(this.book.document());
    if (now !== this.#first) throw new Error('undone wholly, it is not the first document');
    const differs = differsReopened(this.book);
    if (differs !== undefined) throw new Error(`undone wholly: ${differs}`);
  }
}

/** @throws an Error where a run of steps breaks a promise. */
export function follow({ steps, rows = 0, look, undo = false }: Run): void {
  const follower = new Follower(rows);
  for (const [index, step] of steps.entries()) {
    follower.step(step);
    if (index === look) follower.compare();
  }
  follower.compare();
  if (undo) follower.undoAll();
}

/** What a run of steps breaks, where it breaks something. */
export function failureOf(run: Run): Error | undefined {
  try {
    follow(run);
    return undefined;
  } catch (error) {
    return error instanceof Error ? error : new Error(String(error));
  }
}
