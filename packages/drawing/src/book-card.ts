import { type OpenWorkbook, withUnit } from '@kerfbook/workbook';
import { cardSvg } from './card-svg.ts';
import { pictureOf } from './draw-whole.ts';
import { readParts } from './parts.ts';
import { type Box, buildScene } from './scene.ts';
import { cutList } from './shop/cut-list.ts';
import { readStock } from './shop/stock.ts';
import { partsDrawn } from './side-by-side.ts';
import { overAllOf } from './size-words.ts';
import { bookFormat } from './units.ts';
import { woodTone } from './wood-tone.ts';

/** What a workbook says of itself in short, where it lies among others. */
export interface BookCard {
  /** What it is for, its first sentence; left out where it does not say. */
  readonly about?: string;
  /** Words that its maker finds it by. */
  readonly tags: readonly string[];
  /** `72 × 36 × 29 1/2 in`: what is drawn, over all; left out where nothing has a place. */
  readonly size?: string;
  /** Woods and sheet goods of its parts, as the parts table names them. */
  readonly woods: readonly string[];
  /** Kinds of joints that its joints table makes. */
  readonly joints: readonly string[];
  /** What comes of it for the shop and the customer. */
  readonly gives: readonly string[];
  /** The results it names as the main ones, as they stand. */
  readonly results: readonly (readonly [says: string, shown: string])[];
}

/** Room of the picture on a card, in pixels. */
const PANEL = { width: 300, height: 200 };

/**
 * A card of it, its longest measure in mm, and its picture in 3D: no measure where nothing has a place, and no picture
 * where there are no parts.
 */
export function bookCard(book: OpenWorkbook): {
  readonly card: BookCard;
  readonly longest?: number;
  readonly picture?: string;
} {
  const { head } = book;
  const reading = readParts(book);
  const { parts, joints } = reading;
  const scene = buildScene(parts);
  const format = bookFormat(book);
  const { extents } = scene;
  const size = extents === undefined ? undefined : sizeOf(extents, book, format);
  const about = firstSentence(head.about);
  const seen = pictureOf(extents === undefined ? buildScene(partsDrawn(parts)) : scene, {});
  const says = [book.title, ...(size === undefined ? [] : [size])].join(', ');
  const picture = seen === undefined ? undefined : cardSvg(seen.view, PANEL, says);
  const card: BookCard = {
    ...(about === undefined ? {} : { about }),
    tags: head.tags ?? [],
    ...(size === undefined ? {} : { size }),
    woods: cutList(parts)
      .materials.map(({ material }) => material)
      .filter(isWood),
    joints: [...new Set(joints?.kinds)],
    gives: givesOf(book, parts.length > 0, (joints?.marked.length ?? 0) > 0),
    results: (head.results ?? []).flatMap((name) => resultOf(book, name)),
  };
  return {
    card,
    ...(extents === undefined ? {} : { longest: Math.max(...measuresOf(extents, book)) }),
    ...(picture === undefined ? {} : { picture }),
  };
}

function sizeOf(extents: Box, book: OpenWorkbook, format: (mm: number) => string): string {
  const lengths = measuresOf(extents, book).map(format);
  return `${lengths.join(' × ')} ${book.units === 'us' ? 'in' : 'mm'}`;
}

function measuresOf(extents: Box, book: OpenWorkbook): readonly number[] {
  const { x, y, z } = overAllOf(book, extents);
  return [x, y, z];
}

/** A parts table lists slides and feet too: they are no wood. */
const isWood = (material: string): boolean =>
  material !== '' &&
  (woodTone(material) !== 'plain' ||
    /\b(plywood|mdf|hardboard|particleboard|chipboard|osb|wood)\b/i.test(material));

function givesOf(book: OpenWorkbook, hasParts: boolean, hasJoints: boolean): readonly string[] {
  return [
    ...(hasParts ? ['cut list'] : []),
    ...(hasParts && readStock(book).found ? ['buying list'] : []),
    ...(hasJoints ? ['joints to mark out'] : []),
    ...(['price', 'quote_shown'].some((name) => book.named(name)?.value.kind === 'number')
      ? ['price']
      : []),
  ];
}

function resultOf(
  book: OpenWorkbook,
  name: string,
): readonly (readonly [says: string, shown: string])[] {
  const at = book.find(name);
  const cell = book.named(name);
  if (at === undefined || cell === undefined || cell.value.kind === 'empty') return [];
  const { shown, unit } = cell;
  return [[book.labelOf(at), withUnit(shown.text, unit)]];
}

/** As far as the first full stop; a scenario that was invented says so further on. */
function firstSentence(text: string | undefined): string | undefined {
  const said = text?.trim().match(/^.*?[.!?](?=\s|$)|^.+/s)?.[0];
  return said === undefined || said === '' ? undefined : said;
}
