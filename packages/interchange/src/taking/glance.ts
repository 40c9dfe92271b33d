import type { CellIn } from './coming-in.ts';

/** What a cell holds, as far as a glance needs it. */
export function shownOf(cell: CellIn | undefined): string {
  const { value, typed } = cell ?? {};
  if (typed !== undefined) return typed;
  switch (value?.kind) {
    case undefined:
      return '';
    case 'number':
      return String(Math.round(value.number * 10_000) / 10_000);
    case 'text':
      return value.text.trim();
    case 'logical':
      return value.logical ? 'yes' : 'no';
    case 'error':
      return value.word;
  }
}
