export { csvText, type Plain } from './csv/csv-text.ts';
export { writeCsv } from './csv/write.ts';
export type { ToldOut } from './flat/flat-book.ts';
export { type WrittenOut, writeXlsx } from './xlsx/write.ts';
