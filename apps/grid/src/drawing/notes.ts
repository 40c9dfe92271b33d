import {
  bookFormat,
  buildScene,
  findClashes,
  nothingDrawn,
  type Part,
  type PartProblem,
  type PartsReading,
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

/** Why there is nothing to draw, in a sentence; undefined where there is something. */
export function nothingDrawnOf(reading: PartsReading): string | undefined {
  const scene = buildScene(reading.parts);
  return scene.extents === undefined ? nothingDrawn(reading, scene) : undefined;
}
