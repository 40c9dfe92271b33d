export type { FlatBook, ToldOut } from './flat/flat-book.ts';
