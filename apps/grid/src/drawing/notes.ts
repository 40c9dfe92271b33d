import {
  bookFormat,
  buildScene,
  findClashes,
  notPlaced,
  type Part,
  type PartProblem,
  type PartsReading,
  partsDrawn,
} from '@kerfbook/drawing';
import type { OpenWorkbook } from '@kerfbook/workbook';

/** What is to be looked at in a drawing: what could not be read or placed, what runs into what. */
export function notesOf(book: OpenWorkbook, reading: PartsReading): readonly PartProblem[] {
  const scene = buildScene(reading.parts);
  const { overlaps, floating } = findClashes(scene, { format: bookFormat(book) });
  return [...reading.problems, ...scene.problems, ...overlaps, ...floating];
}

/** The part whose row a cell stands in. */
export function partAt(
  parts: readonly Part[],
  at: { readonly sheet: string; readonly row: number } | undefined,
): Part | undefined {
  return parts.find((part) => part.at.sheet === at?.sheet && part.at.row === at.row);
}

/** What is drawn of a parts table, and what is to be said about it. */
export interface Drawn {
  /** In their places, or side by side where none has one; nothing where there is nothing to draw. */
  readonly parts: readonly Part[] | undefined;
  /** Why there is nothing to draw, or only parts side by side, in a sentence. */
  readonly says: string | undefined;
}

/** What there is to draw: parts are placed once for all that is drawn of them. */
export function drawnOf(reading: PartsReading): Drawn {
  const parts = partsDrawn(reading.parts);
  const scene = buildScene(parts);
  const says = notPlaced(reading, scene);
  return { parts: scene.extents === undefined ? undefined : parts, says };
}
