import { saveText, type Workbook } from '@kerfbook/workbook';
import {
  type BareUnit,
  type ListKind,
  type ListReading,
  listContext,
  readList,
  takeList,
} from '@kerfbook/workbook/from-text';
import { Misuse } from '../arguments.ts';
import type { ExitCode, Io } from '../io.ts';
import { tableText } from '../table-text.ts';
import { printJson } from '../visible.ts';

/** What `parts --from` was asked for. */
export interface FromText {
  readonly path: string;
  readonly boards: boolean;
  readonly unit: string | undefined;
  readonly json: boolean;
  readonly out: string | undefined;
  readonly force: boolean;
}

const UNITS: readonly BareUnit[] = ['in', 'mm', 'cm'];
const WORDS: Readonly<Record<BareUnit, string>> = {
  in: 'inches',
  mm: 'millimeters',
  cm: 'centimeters',
};
const HEADS: Readonly<Record<ListKind, readonly string[]>> = {
  parts: ['part', 'count', 'thickness', 'width', 'length', 'material', 'grain'],
  stock: ['stock', 'material', 'thickness', 'width', 'length', 'price', 'at hand'],
};

/** Reads a list of parts or boards, tells what each line came to, and writes the workbook with them where that is asked. */
export async function partsFrom(book: Workbook, asked: FromText, io: Io): Promise<ExitCode> {
  const unit = UNITS.find((one) => one === asked.unit);
  if (asked.unit !== undefined && unit === undefined) {
    throw new Misuse(`--unit takes in, mm or cm; it got "${asked.unit}".`);
  }
  const file = await io.read(asked.path);
  if (!file.ok) {
    io.err(file.says);
    return 2;
  }
  const kind: ListKind = asked.boards ? 'stock' : 'parts';
  const reading = readList(file.text, listContext(book, kind, unit));
  if (reading.refused !== undefined) {
    io.err(reading.refused);
    return 2;
  }
  if (asked.json) printJson(io, { ...reading });
  else print(reading, kind, io);
  const missed = reading.unread.filter(({ expected }) => !expected);
  const ends: ExitCode = missed.length > 0 || reading.rows.length === 0 ? 1 : 0;
  if (asked.out === undefined) return ends;
  const taking = takeList(
    book,
    kind,
    reading.rows.map(({ texts }) => texts),
  );
  const done = book.apply(taking.edit);
  if (!done.ok) {
    io.err(done.says);
    return 1;
  }
  for (const head of taking.missing) {
    io.err(`The ${kind} table has no column "${head}"; what the list says of it is left out.`);
  }
  const trouble = await io.write(asked.out, saveText(book.document()), asked.force);
  if (trouble === undefined) return taking.missing.length > 0 ? 1 : ends;
  io.err(trouble);
  return 2;
}

function print({ rows, unread, bare }: ListReading, kind: ListKind, io: Io): void {
  const heads = HEADS[kind].filter((head) => rows.some(({ texts }) => texts[head] !== undefined));
  if (rows.length > 0) {
    const lines = rows.map(({ texts }) => heads.map((head) => texts[head] ?? ''));
    for (const line of tableText([heads, ...lines])) io.out(line);
  }
  if (bare !== undefined) {
    const or = bare.asks ? ' Say --unit in, mm or cm where that is not so.' : '';
    io.err(`Numbers without a unit are read in ${WORDS[bare.unit]}. ${bare.why}${or}`);
  }
  for (const { line, says } of rows) if (says.length > 0) io.err(`Line ${line}: ${says.join(' ')}`);
  for (const { line, text, says } of unread) io.err(`Line ${line} is not taken: ${text} (${says})`);
}
