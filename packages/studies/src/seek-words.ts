import { type CellView, showWithUnit } from '@kerfbook/workbook';
import { contextOf, type StudyBook } from './inputs.ts';
import type { Found, Mark } from './seek.ts';

/**
 * What a seek found, in sentences: what does it, how far it goes, what was left out, and what was not looked at.
 *
 * @param called what a cell is called in them; its name where left out
 */
export function foundWords(
  book: Pick<StudyBook, 'units' | 'currency'>,
  found: Found,
  called: (cell: CellView) => string = ({ name = '' }) => name,
): readonly string[] {
  const { span, goal, crossings, stretches, reach, refused, lost, apart, tried } = found;
  const shown = (cell: CellView, number: number): string =>
    showWithUnit({ kind: 'number', number }, contextOf(book, cell));
  const [input, result] = [called(span.cell), called(goal.cell)];
  const at = (mark: Mark): string => shown(span.cell, mark.at);
  const comes = (mark: Mark): string =>
    mark.comes === undefined ? 'no number' : shown(goal.cell, mark.comes);
  const fails = ({ failing }: Mark): string =>
    failing.length === 0
      ? ''
      : ` (${failing.map(({ name, state }) => `${state}: ${name}`).join('; ')})`;
  const lines = [
    ...crossings.map(({ exact, between: [one, other] }) => {
      if (exact === undefined) {
        return `${result} jumps over it: ${comes(one)} at ${input} ${at(one)}, ${comes(other)} at ${at(other)}.`;
      }
      const marks =
        one.at === other.at || one.at === exact.at || other.at === exact.at
          ? ''
          : ` Next to it: ${comes(one)} at ${at(one)}, ${comes(other)} at ${at(other)}.`;
      return `${input} ${at(exact)} makes ${result} ${comes(exact)}${fails(exact)}.${marks}`;
    }),
    ...stretches.map(({ from, to }) =>
      from.at === to.at
        ? `${input} ${at(from)}: ${result} ${comes(from)}${fails(from)}.`
        : `${input} from ${at(from)} to ${at(to)}: ${result} ${comes(from)} to ${comes(to)}${fails(to)}.`,
    ),
  ];
  if (lines.length === 0) {
    lines.push(
      reach === undefined
        ? `${result} comes to no number anywhere between ${shown(span.cell, span.from)} and ${shown(span.cell, span.to)}.`
        : `No ${input} between ${shown(span.cell, span.from)} and ${shown(span.cell, span.to)} does it: ${result} comes to ${comes(reach[0])} at ${at(reach[0])} and to ${comes(reach[1])} at ${at(reach[1])}.`,
    );
  }
  if (refused.length > 0) {
    const stops = new Set(refused.flatMap(({ failing }) => failing.map(({ name }) => name)));
    lines.push(`Left out, since a check says stop: ${refused.length} (${[...stops].join(', ')}).`);
  }
  if (lost > 0) lines.push(`${result} comes to no number at ${lost} of the places tried.`);
  lines.push(
    `${tried} places were tried, at first ${shown(span.cell, apart)} apart; what happens between them was not looked at.`,
  );
  return lines;
}
