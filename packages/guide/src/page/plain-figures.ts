import { bookFormat, buildScene, drawWhole } from '@kerfbook/drawing';
import type { FiguresOf, StepFigure } from './options.ts';

/** How large a figure is made: its letters are in proportion to it. */
const PANEL = { width: 520, height: 300 };

/** All that stands after a step, in 3D; steps that build nothing, or ask for no figure, have none. */
export const plainFigures: FiguresOf = (source, { steps }, { print }) => {
  const format = bookFormat(source);
  const figures = new Map<string, StepFigure>();
  const built: Parameters<typeof buildScene>[0][number][] = [];
  for (const { key, parts, figure } of steps) {
    built.push(...parts);
    if (parts.length === 0 || figure.kind === 'none') continue;
    const svg = drawWhole(buildScene(built), {
      format,
      panel: PANEL,
      ...(print === true ? { print } : {}),
    });
    if (svg !== undefined) {
      figures.set(key, { svg, says: parts.map(({ name }) => name).join(', ') });
    }
  }
  return figures;
};
