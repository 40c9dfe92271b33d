import { clearSelected } from '../commands/commands.ts';
import { copyByCommand } from '../commands/copy-by-command.ts';
import { groupItems } from '../commands/groups.ts';
import { listKindAt } from '../commands/list-pasted.ts';
import { pasteBlock } from '../commands/pasting.ts';
import { columnInWords, sortable, sortRows } from '../commands/sort.ts';
import { linesInWords } from '../commands/structure.ts';
import type { Area } from '../session/area.ts';
import type { Session } from '../session/session.ts';
import type { MenuState, Question } from '../session/types.ts';
import { deleteItem, insertItems, sightItems, widthItems } from './line-items.ts';
import { type Item, MenuList } from './menu-list.tsx';

interface MenuProps {
  readonly session: Session;
  readonly place: MenuState;
  readonly onAsk: (what: Question) => void;
  readonly onClose: () => void;
}

/**
 * What can be done with what is selected, cells or whole rows or columns; opened with the right button, a
 * long press or the key, on a head also with its own small key.
 */
export default function Menu({ session, place, onAsk, onClose }: MenuProps) {
  const area = session.areas.at(-1);
  if (area === undefined) return null;
  const of = place.of ?? 'cells';
  const groups = session.mayChange ? itemsOf(session, area, place, onAsk) : [];
  const label =
    of === 'cells' ? 'Selected cells' : linesInWords(area, of === 'rows' ? 'row' : 'column');
  return <MenuList label={label} place={place} groups={groups} onClose={() => onClose()} />;
}

type Groups = readonly (readonly Item[])[];

function itemsOf(
  session: Session,
  area: Area,
  place: MenuState,
  onAsk: MenuProps['onAsk'],
): Groups {
  const moving = movingItems(session, area);
  const sorting = sortItems(session);
  switch (place.of ?? 'cells') {
    case 'rows':
      return [
        insertItems(session, area, 'row'),
        sightItems(session, area, 'row'),
        groupItems(session),
        sorting,
        moving,
        [deleteItem(session, area, 'row')],
      ];
    case 'columns':
      return [
        insertItems(session, area, 'column'),
        widthItems(session, area),
        sightItems(session, area, 'column'),
        sorting,
        moving,
        [deleteItem(session, area, 'column')],
      ];
    case 'cells':
      return [
        moving,
        [
          { says: 'Format …', does: () => onAsk('format') },
          { says: 'Name …', does: () => onAsk('name') },
          { says: 'Remark …', does: () => onAsk('remark') },
          { says: 'Add a check …', does: () => onAsk('mark') },
          {
            says: session.state.value.formulas === true ? 'Show results' : 'Show formulas',
            does: () => session.showFormulas(),
          },
        ],
        sorting,
        [...insertItems(session, area, 'row'), ...insertItems(session, area, 'column')],
        [more(session, area, place, 'rows'), more(session, area, place, 'columns')],
        listItems(session, onAsk),
        [deleteItem(session, area, 'row'), deleteItem(session, area, 'column')],
      ];
  }
}

/** In a table of parts or boards: more of them from a list. */
function listItems({ book, at }: Session, onAsk: MenuProps['onAsk']): readonly Item[] {
  const kind = listKindAt(book, at);
  if (kind === undefined) return [];
  const says = kind === 'parts' ? 'Parts from a text …' : 'Boards from a text …';
  return [{ says, does: () => onAsk(kind) }];
}

/** Goes on to the menu of the whole rows or columns that the cells stand in. */
function more(session: Session, area: Area, { x, y }: MenuState, of: 'rows' | 'columns'): Item {
  const line = of === 'rows' ? 'row' : 'column';
  return {
    says: `More for ${linesInWords(area, line)} …`,
    does: () => {
      session.selectLines(line, area);
      session.openMenu({ x, y, of });
    },
  };
}

function movingItems(session: Session, area: Area): readonly Item[] {
  const { block } = session.state.value;
  return [
    { says: 'Cut', does: () => copyByCommand(session, 'cut') },
    { says: 'Copy', does: () => copyByCommand(session, 'copy') },
    ...(hidesSome(session, area)
      ? [{ says: 'Copy visible cells', does: () => copyByCommand(session, 'seen') }]
      : []),
    ...(block === undefined
      ? []
      : [
          { says: 'Paste here', does: () => pasteBlock(session, block, 'all') },
          { says: 'Paste values only', does: () => pasteBlock(session, block, 'values') },
          { says: 'Paste format only', does: () => pasteBlock(session, block, 'formats') },
          {
            says: 'Paste rows as columns',
            does: () => pasteBlock(session, block, 'transposed'),
          },
        ]),
    { says: 'Clear', does: () => clearSelected(session) },
  ];
}

function sortItems(session: Session): readonly Item[] {
  const sorting = sortable(session);
  if (sorting === undefined) return [];
  const by = columnInWords(sorting.by);
  return [
    { says: `Sort by ${by}, smallest first`, does: () => sortRows(session, 'last') },
    { says: `Sort by ${by}, largest first`, does: () => sortRows(session, 'first') },
  ];
}

function hidesSome({ book, at }: Session, area: Area): boolean {
  const { hidden = [], hiddenRows = [] } = book.sheet(at.sheet) ?? {};
  return (
    hiddenRows.some((row) => row >= area.top && row <= area.bottom) ||
    hidden.some((column) => column >= area.left && column <= area.right)
  );
}
