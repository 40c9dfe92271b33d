export { kerfTrouble } from './kerf-entry.ts';
export { listContext } from './list-context.ts';
export { readList } from './read-list.ts';
export type { BareUnit } from './sizes-in.ts';
export { type ListTaking, type RowTexts, takeList } from './take-list.ts';
export type { ListContext, ListKind, ListReading, ListRow, UnreadLine } from './types.ts';
