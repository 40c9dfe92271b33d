import type { OpenWorkbook } from '@kerfbook/workbook';
import type { Part } from '../parts.ts';
import { buildScene } from '../scene.ts';
import { type CurveTemplate, curveTemplates } from '../templates/curve-templates.ts';
import { templatePages } from '../templates/template-pages.ts';
import { patternToDxf } from './to-dxf.ts';

/** Larger than any part: what is printed from a file of its own is not cut into sheets, mm. */
const WHOLE = { width: 1e6, height: 1e6 };

/** The outlines of all parts with a curve at true size, each whole. */
export const wholePatterns = (parts: readonly Part[]): readonly CurveTemplate[] =>
  curveTemplates(buildScene(parts), WHOLE);

/** A pattern as a file of its own; as SVG with the square by which a print is measured. */
export function patternFile(
  pattern: CurveTemplate,
  to: 'svg' | 'dxf',
  units: OpenWorkbook['units'],
): string {
  if (to === 'dxf') return patternToDxf(pattern, units);
  const [page] = templatePages(pattern, { room: WHOLE, units, standalone: true }).pages;
  if (page === undefined) throw new Error('a pattern came without a page');
  return page.svg;
}
