import type { KnownTable } from '@kerfbook/drawing';
import type { GuideSource } from '@kerfbook/guide';
import type { CellValue, OpenWorkbook } from '@kerfbook/workbook';
import { useCallback, useEffect, useRef, useState } from 'react';
import type { StepHead } from './steps-table.ts';

/** What is being written in the fields of a step and is not entered yet, by the heads of its cells. */
export type Drafts = ReadonlyMap<StepHead, string>;

/** Takes what a field holds now; undefined once it holds what its cell does. */
export type NoteDraft = (head: StepHead, text: string | undefined) => void;

const NONE: Drafts = new Map();

/** What is being written, told anew at most once a frame. */
export function useDrafts(): readonly [drafts: Drafts, note: NoteDraft] {
  const [drafts, setDrafts] = useState(NONE);
  const latest = useRef(NONE);
  const frame = useRef<number>(undefined);
  useEffect(
    () => () => {
      if (frame.current !== undefined) cancelAnimationFrame(frame.current);
    },
    [],
  );
  const note = useCallback<NoteDraft>((head, text) => {
    if (latest.current.get(head) === text) return;
    const next = new Map(latest.current);
    if (text === undefined) next.delete(head);
    else next.set(head, text);
    latest.current = next;
    frame.current ??= requestAnimationFrame(() => {
      frame.current = undefined;
      setDrafts(latest.current);
    });
  }, []);
  return [drafts, note];
}

/** Heads whose cells hold words: of any other an entry is read by its quantity once it is entered. */
const WORDS: ReadonlySet<StepHead> = new Set<StepHead>([
  'step',
  'text',
  'builds',
  'figure',
  'measure',
  'tools',
  'hardware',
  'caution',
]);

/**
 * A workbook as it would be with what is being written in a row of its steps; the workbook itself is not changed. A
 * formula that is not whole yet leaves its cell as it is.
 */
export function withDrafts(
  book: OpenWorkbook,
  { sheet, columns }: Pick<KnownTable, 'sheet' | 'columns'>,
  row: number,
  drafts: Drafts,
): GuideSource {
  const values = new Map<number, CellValue>();
  for (const [head, text] of drafts) {
    const column = columns.get(head);
    if (column === undefined || !WORDS.has(head)) continue;
    const value = valueIn(book, sheet, text);
    if (value !== undefined) values.set(column, value);
  }
  if (values.size === 0) return book;
  const at = (place: Parameters<OpenWorkbook['value']>[0]): CellValue | undefined =>
    place.sheet === sheet && place.row === row ? values.get(place.column) : undefined;
  const seen: Pick<OpenWorkbook, 'value' | 'cell'> = {
    value: (place) => at(place) ?? book.value(place),
    cell: (place) => {
      const [value, cell] = [at(place), book.cell(place)];
      return value === undefined ? cell : { ...cell, value, shown: book.asShown(place, value) };
    },
  };
  const bound = new Map<PropertyKey, unknown>();
  return new Proxy(book, {
    get(target, key) {
      if (key === 'value' || key === 'cell') return seen[key];
      const known = bound.get(key);
      if (known !== undefined) return known;
      const found: unknown = Reflect.get(target, key, target);
      if (typeof found !== 'function') return found;
      const method: unknown = found.bind(target);
      bound.set(key, method);
      return method;
    },
  });
}

function valueIn(book: OpenWorkbook, sheet: string, text: string): CellValue | undefined {
  if (!text.startsWith('=')) {
    return text.trim() === '' ? { kind: 'empty' } : { kind: 'text', text };
  }
  const value = book.evaluate(text, sheet);
  return value.kind === 'error' ? undefined : value;
}
