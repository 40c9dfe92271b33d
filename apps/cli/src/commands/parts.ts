import {
  bookFormat,
  type CutItem,
  cutList,
  gluedSizes,
  moistureOf,
  readParts,
  shapingSteps,
  shouldersSaid,
} from '@kerfbook/drawing';
import type { Workbook } from '@kerfbook/workbook';
import { Misuse, readArguments } from '../arguments.ts';
import type { Io } from '../io.ts';
import { ownLength } from '../lengths.ts';
import { openAndSet } from '../open-set.ts';
import { tableText } from '../table-text.ts';
import { cellOf } from '../values.ts';
import { printJson } from '../visible.ts';
import type { Command } from './command.ts';
import { partsFrom } from './parts-from.ts';

/** What `parts --json` prints; lengths in the workbook's own unit. */
interface PartsReport {
  readonly parts: readonly {
    readonly part: string;
    readonly count: number;
    readonly thickness: number;
    readonly width: number;
    readonly length: number;
    readonly material: string;
    readonly grain?: string;
    /** The part these pieces are glued up to. */
    readonly becomes?: string;
    /** How it is shaped once it is cut to these sizes, in order; left out where it is a box. */
    readonly steps?: readonly string[];
    /** Between the shoulders of its tenons; left out where it has none. */
    readonly shoulders?: number;
  }[];
  readonly materials: readonly {
    readonly material: string;
    readonly pieces: number;
    readonly boardfeet: number;
    /** ft² or m² */
    readonly area: number;
    /** lb or kg; left out where the material is no wood that is known. */
    readonly weight?: number;
  }[];
  readonly problems: readonly { readonly cell: string; readonly says: string }[];
}

/** `parts`: the cut list, or what a list of parts or boards comes to. */
export const partsCommand: Command = {
  name: 'parts',
  usage:
    'parts FILE [--set name=entry]… [--json] [--from LIST [--boards] [--unit in|mm|cm] [--out PATH [--force]]]',
  does: 'prints the cut list. With --from, reads a list of parts as makers write them (with --boards, of boards for the stock table), prints what each line came to and what it guessed, and writes the workbook with their rows to --out',
  async run(args, io) {
    const { values, positionals } = readArguments(args, {
      set: { type: 'string', multiple: true },
      json: { type: 'boolean' },
      from: { type: 'string' },
      boards: { type: 'boolean' },
      unit: { type: 'string' },
      out: { type: 'string' },
      force: { type: 'boolean' },
    });
    const only = (['boards', 'unit', 'out', 'force'] as const).find(
      (one) => values[one] !== undefined,
    );
    if (values.from === undefined && only !== undefined) {
      throw new Misuse(`--${only} goes with --from, which names a list of parts.`);
    }
    const opened = await openAndSet('parts', positionals, values.set, io);
    if (opened === undefined) return 2;
    const { book, refused } = opened;
    if (values.from !== undefined) {
      for (const { cell, says } of refused) io.err(`${cell} ${says}`);
      if (refused.length > 0) return 1;
      return partsFrom(
        book,
        {
          path: values.from,
          boards: values.boards === true,
          unit: values.unit,
          json: values.json === true,
          out: values.out,
          force: values.force === true,
        },
        io,
      );
    }
    const reading = readParts(book);
    const list = cutList(reading.parts, moistureOf(book));
    const problems = [
      ...refused,
      ...reading.problems.map(({ at, says }) => ({ cell: cellOf(book, at), says })),
      ...(reading.found ? [] : [{ cell: '', says: 'This workbook has no parts table.' }]),
    ];
    if (values.json === true) printJson(io, reportOf(book, list, problems));
    else print(book, list, io);
    if (values.json !== true) {
      for (const { cell, says } of problems) io.err(cell === '' ? says : `${cell} ${says}`);
    }
    return problems.length > 0 ? 1 : 0;
  },
};

/** Exact by definition (NIST SP 811, appendix B). */
const MM2_PER_FT2 = 304.8 ** 2;
const KG_PER_POUND = 0.45359237;

const rounded = (value: number): number => Number(value.toPrecision(6));

function reportOf(
  book: Workbook,
  list: ReturnType<typeof cutList>,
  problems: readonly { readonly cell: string; readonly says: string }[],
): PartsReport {
  const us = book.units === 'us';
  return {
    parts: list.items.map(
      ({ name, count, thickness, width, length, material, grain, becomes, shaped, shoulders }) => ({
        part: name,
        count,
        thickness: ownLength(thickness, book),
        width: ownLength(width, book),
        length: ownLength(length, book),
        material,
        ...(grain === undefined ? {} : { grain }),
        ...(becomes === undefined ? {} : { becomes: becomes.part }),
        ...(shoulders === undefined ? {} : { shoulders: ownLength(shoulders, book) }),
        ...(shaped === undefined ? {} : { steps: shapingSteps(shaped, bookFormat(book)) }),
      }),
    ),
    materials: list.materials.map(({ material, pieces, boardFeet, area, mass }) => ({
      material,
      pieces,
      boardfeet: rounded(boardFeet),
      area: rounded(us ? area / MM2_PER_FT2 : area / 1e6),
      ...(mass === undefined ? {} : { weight: rounded(us ? mass / KG_PER_POUND : mass) }),
    })),
    problems: problems.map(({ cell, says }) => ({ cell, says })),
  };
}

function print(book: Workbook, list: ReturnType<typeof cutList>, io: Io): void {
  const write = bookFormat(book);
  const line = ({
    name,
    count,
    thickness,
    width,
    length,
    material,
    becomes,
    shaped,
    shoulders,
  }: CutItem): string[] => [
    name,
    String(count),
    write(thickness),
    write(width),
    write(length),
    material,
    [
      ...(becomes === undefined
        ? []
        : [`glued up to ${gluedSizes(becomes).map(write).join(' by ')}`]),
      ...(shoulders === undefined ? [] : [shouldersSaid(shoulders, length, write)]),
      ...(shaped === undefined ? [] : shapingSteps(shaped, write)),
    ].join('; '),
  ];
  const unit = book.units === 'us' ? 'in' : 'mm';
  const head = [
    'part',
    'count',
    `thick, ${unit}`,
    `wide, ${unit}`,
    `long, ${unit}`,
    'material',
    '',
  ];
  for (const row of tableText([head, ...list.items.map(line)])) io.out(row);
  for (const { material, pieces, boardfeet, area, weight } of reportOf(book, list, []).materials) {
    const heavy =
      weight === undefined ? '' : `, ${weight.toFixed(1)} ${book.units === 'us' ? 'lb' : 'kg'}`;
    const faces = `${area.toFixed(1)} ${book.units === 'us' ? 'ft²' : 'm²'} of faces`;
    const name = material === '' ? 'no material named' : material;
    io.out(`${name}: ${pieces} pieces, ${boardfeet.toFixed(1)} bd ft, ${faces}${heavy}`);
  }
}
