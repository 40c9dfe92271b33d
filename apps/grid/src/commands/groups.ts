import { LIMITS, type RowGroup } from '@kerfbook/workbook';
import { type Area, within } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import { linesInWords } from './structure.ts';

/** The row that heads a group and stays when it is folded: the one above, or below at the top. */
export const headOf = ({ first, last }: RowGroup): number => (first > 0 ? first - 1 : last + 1);

const groupsHere = ({ book, at }: Session): readonly RowGroup[] =>
  book.sheet(at.sheet)?.groups ?? [];

export const groupInWords = ({ first, last }: RowGroup): string =>
  linesInWords({ top: first, bottom: last, left: 0, right: 0 }, 'row');

/** The innermost group that the current cell stands in or heads. */
function groupAt(session: Session): RowGroup | undefined {
  const { row } = session.at;
  const around = groupsHere(session).filter(
    (group) => headOf(group) === row || (row >= group.first && row <= group.last),
  );
  const inside = around.filter(({ first, last }) => row >= first && row <= last);
  return inside.at(-1) ?? around[0];
}

/** Folds a group away or opens it, with all that is within. */
export function turnGroup(session: Session, group: RowGroup): void {
  const { sheet, row } = session.at;
  const rows = Array.from({ length: group.last - group.first + 1 }, (_, i) => group.first + i);
  const hidden = !group.folded;
  const count = rows.length === 1 ? '1 row' : `${rows.length} rows`;
  const result = session.apply(
    { do: 'hideRows', sheet, rows, hidden },
    sentence(`${groupInWords(group)} ${hidden ? 'folded' : 'unfolded'}, ${count}.`),
  );
  if (!result.ok || !hidden || row < group.first || row > group.last) return;
  session.go({ ...session.at, row: headOf(group) });
}

/** Puts the selected rows into a group, or takes them out of their innermost one. */
function groupSelected(session: Session, by: 1 | -1): void {
  const area = rowsSelected(session);
  if (area === undefined) return;
  const { sheet } = session.at;
  const depth = depths(groupsHere(session), area);
  session.apply(
    {
      do: 'groupRows',
      sheet,
      rows: depth.map((group, i) => ({ row: area.top + i, group: Math.max(0, group + by) })),
    },
    sentence(`${linesInWords(area, 'row')} ${by === 1 ? 'grouped' : 'ungrouped'}.`),
  );
}

const sentence = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`;

/** What can be done about groups where the maker is, in the words of a menu. */
export function groupItems(session: Session): readonly { says: string; does: () => void }[] {
  const area = rowsSelected(session);
  const group = groupAt(session);
  const depth = area === undefined ? [] : depths(groupsHere(session), area);
  const words = area === undefined ? '' : linesInWords(area, 'row');
  return [
    ...(depth.length > 0 && Math.max(...depth) < LIMITS.groups
      ? [{ says: `Group ${words}`, does: () => groupSelected(session, 1) }]
      : []),
    ...(depth.some((one) => one > 0)
      ? [{ says: `Ungroup ${words}`, does: () => groupSelected(session, -1) }]
      : []),
    ...(group === undefined
      ? []
      : [
          {
            says: `${group.folded ? 'Unfold' : 'Fold'} ${groupInWords(group)}`,
            does: () => turnGroup(session, group),
          },
        ]),
  ];
}

function rowsSelected(session: Session): Area | undefined {
  const { rows = 0, columns = 0 } = session.book.sheet(session.at.sheet) ?? {};
  const selected = session.areas.at(-1);
  return selected === undefined
    ? undefined
    : within({ ...selected, left: 0, right: 0 }, rows, Math.max(1, columns));
}

/** How many groups a row is in, one inside the other. */
export const depthOf = (groups: readonly RowGroup[], row: number): number =>
  groups.reduce(
    (most, { first, last, depth }) => (row >= first && row <= last ? Math.max(most, depth) : most),
    0,
  );

const depths = (groups: readonly RowGroup[], { top, bottom }: Area): number[] =>
  Array.from({ length: bottom - top + 1 }, (_, i) => depthOf(groups, top + i));
