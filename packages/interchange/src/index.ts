export { csvText, type Plain } from './csv/csv-text.ts';
export { writeCsv } from './csv/write.ts';
export type { ToldOut } from './flat/flat-book.ts';
export { type Imported, importFile } from './import-file.ts';
export type { ToldIn } from './taking/coming-in.ts';
export type { Guess } from './taking/guesses.ts';
export type { FoundTable } from './taking/parts-list.ts';
export type { TakeHow, TakenIn } from './taking/take-in.ts';
export { type WrittenOut, writeXlsx } from './xlsx/write.ts';
