import type { SheetView } from '@kerfbook/workbook';
import { useState } from 'react';
import { addSheet, copySheet, hideSheet, moveSheet, showSheets } from '../commands/sheets.ts';
import { type Item, MenuList, type MenuPlace } from '../menu/menu-list.tsx';
import { sheetsInSight } from '../session/places.ts';
import type { Session } from '../session/session.ts';
import { DeleteSheet, NewTable, RenameSheet } from './sheet-forms.tsx';

interface SheetMenuProps {
  readonly session: Session;
  /** The sheet it is about: it becomes the current one. */
  readonly sheet: string;
  readonly place: MenuPlace;
  readonly onClose: () => void;
}

type Asked = 'rename' | 'delete' | 'table';

/** What can be done with a sheet, from its place in the list, and the dialogs that leads to (G45). */
export default function SheetMenu({ session, sheet, place, onClose }: SheetMenuProps) {
  const [asked, setAsked] = useState<Asked>();
  if (asked !== undefined) {
    const Form = { rename: RenameSheet, delete: DeleteSheet, table: NewTable }[asked];
    return <Form session={session} onClose={onClose} />;
  }
  const { book } = session;
  const shown = sheetsInSight(book, sheet);
  const at = shown.findIndex(({ id }) => id === sheet);
  const { name = '', isHidden = false } = shown[at] ?? {};
  const hidden = book.sheets().filter((one) => one.isHidden);
  /** What changes sheets at once; refused where only inputs may be changed. */
  const does = (act: () => void) => () => {
    if (session.mayShape()) {
      if (session.at.sheet !== sheet) session.goSheet(sheet);
      act();
    }
    onClose();
  };
  /** What only changes what is seen, also of a workbook whose formulas are locked. */
  const looks = (act: () => void) => () => {
    if (session.at.sheet !== sheet) session.goSheet(sheet);
    act();
    onClose();
  };
  const asks = (what: Asked) => () => {
    if (!session.mayShape()) {
      onClose();
      return;
    }
    if (session.at.sheet !== sheet) session.goSheet(sheet);
    setAsked(what);
  };
  const groups: readonly (readonly Item[])[] = [
    [
      { says: 'Rename …', does: asks('rename') },
      ...(at > 0 ? [{ says: 'Move earlier', does: does(() => moveSheet(session, -1)) }] : []),
      ...(at < shown.length - 1
        ? [{ says: 'Move later', does: does(() => moveSheet(session, 1)) }]
        : []),
      { says: 'Duplicate', does: does(() => copySheet(session)) },
      ...(isHidden || shown.length === 1
        ? []
        : [{ says: 'Hide', does: looks(() => hideSheet(session)) }]),
    ],
    showing(hidden, (ids) => looks(() => showSheets(session, ids))),
    [
      { says: 'New sheet', does: does(() => addSheet(session)) },
      { says: 'New table …', does: asks('table') },
    ],
    book.sheets().length === 1 ? [] : [{ says: 'Delete …', does: asks('delete'), removes: true }],
  ];
  return (
    <MenuList
      label={`Sheet ${name}`}
      place={place}
      groups={groups}
      onClose={(chosen) => {
        if (!chosen) onClose();
      }}
    />
  );
}

/** Hidden sheets in a menu, at the most: where there are more, all of them come back together. */
const MOST_HIDDEN = 6;

/** What brings hidden sheets back: each by its name, and all at once. */
function showing(
  hidden: readonly SheetView[],
  show: (ids: readonly string[]) => () => void,
): readonly Item[] {
  const each = hidden
    .slice(0, MOST_HIDDEN)
    .map(({ id, name }) => ({ says: `Show ${name}`, does: show([id]) }));
  if (hidden.length < 2) return each;
  const all = { says: `Show all ${hidden.length} hidden`, does: show(hidden.map(({ id }) => id)) };
  return [...each, all];
}
