import { readEntry, SHOP_COLUMNS } from '@kerfbook/workbook';
import {
  type BareUnit,
  type ListKind,
  type ListReading,
  listContext,
  readList,
  takeList,
} from '@kerfbook/workbook/from-text';
import { useDeferredValue, useId, useMemo, useState } from 'react';
import { begunWith } from '../commands/list-pasted.ts';
import { Dialog } from '../library/dialog.tsx';
import { asRead } from '../session/decimal-mark.ts';
import type { Session } from '../session/session.ts';
import { type Changes, keyOf, ReadRows, type Shown } from './read-rows.tsx';
import { UnreadLines } from './unread-lines.tsx';
import './list-dialog.css';

interface ListDialogProps {
  readonly session: Session;
  readonly kind: ListKind;
  readonly onClose: () => void;
}

const WORDS = {
  parts: {
    title: 'Parts from a text',
    one: 'part',
    many: 'parts',
    hint: '4 legs 3 1/2 x 3 1/2 x 28 1/2\nApron, long – 2 pcs – 7/8 × 4 × 62 – walnut',
  },
  stock: {
    title: 'Boards from a text',
    one: 'board',
    many: 'boards',
    hint: '5 @ 8/4 x 8" x 10\' walnut, $9.50/bf\n2 sheets 3/4 ply 4x8, $65 each',
  },
} as const;

const UNITS: readonly (readonly [BareUnit, string])[] = [
  ['in', 'inches'],
  ['mm', 'millimeters'],
  ['cm', 'centimeters'],
];

/** A list of parts or boards as its maker has it, what was read of it beside it, and one press that adds the rows. */
export default function ListDialog({ session, kind, onClose }: ListDialogProps) {
  const { book } = session;
  const words = WORDS[kind];
  const [text, setText] = useState(begunWith);
  const [unit, setUnit] = useState<BareUnit>();
  const [changes, setChanges] = useState<Changes>(new Map());
  const [refused, setRefused] = useState<string>();
  const later = useDeferredValue(text);
  const reading = useMemo(
    () => readList(later, listContext(book, kind, unit)),
    [later, book, kind, unit],
  );
  const rows = useMemo(
    () => shownRows(session, kind, reading, changes),
    [session, kind, reading, changes],
  );
  const taken = rows.filter(({ isTaken }) => isTaken);
  const wrong = taken.filter(({ complaints }) => complaints.size > 0);
  const missing = useMemo(
    () =>
      takeList(
        book,
        kind,
        taken.map(({ texts }) => texts),
      ).missing,
    [book, kind, taken],
  );
  const field = useId();
  const change = (key: string, value: string | boolean): void => {
    setRefused(undefined);
    setChanges((before) => new Map(before).set(key, value));
  };
  const add = (): void => {
    const entries = taken.map(({ texts, typed }) =>
      Object.fromEntries(
        Object.entries(texts).map(([head, entry]) => {
          const quantity = quantityOf(kind, head);
          return [
            head,
            typed.has(head)
              ? asRead(entry, () => (quantity === undefined ? {} : { quantity }))
              : entry,
          ];
        }),
      ),
    );
    const { edit, sheet } = takeList(session.settled(), kind, entries);
    const done = session.apply(edit, `Added ${counted(taken.length, words)}.`);
    if (!done.ok) {
      session.hush();
      setRefused(done.says);
      return;
    }
    onClose();
    session.goSheet(sheet);
  };
  return (
    <Dialog title={words.title} className="from-text" onClose={onClose}>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          if (taken.length > 0 && wrong.length === 0) add();
        }}
      >
        <div className="from-text-sides">
          <div className="from-text-given">
            <label htmlFor={field}>The list, a line each</label>
            <textarea
              id={field}
              className="field"
              rows={12}
              spellCheck={false}
              value={text}
              placeholder={words.hint}
              onChange={(event) => {
                setRefused(undefined);
                setText(event.target.value);
              }}
            />
            <BareUnits reading={reading} chosen={unit} onChoose={setUnit} />
          </div>
          <div className="from-text-read">
            <p role="status">{summary(reading, rows, words)}</p>
            {reading.refused === undefined ? null : <p className="complaint">{reading.refused}</p>}
            {rows.length === 0 ? null : <ReadRows rows={rows} kind={kind} onChange={change} />}
            <UnreadLines unread={reading.unread} />
          </div>
        </div>
        {missing.length === 0 ? null : (
          <p className="complaint">
            The {kind} table has no column {missing.map((head) => `"${head}"`).join(', ')}: what the
            list says of it is left out.
          </p>
        )}
        {refused === undefined ? null : (
          <p className="complaint" role="alert">
            {refused}
          </p>
        )}
        <p className="actions">
          <button
            type="submit"
            className="button button-main"
            disabled={taken.length === 0 || wrong.length > 0}
          >
            {taken.length === 0 ? `Add ${words.many}` : `Add ${counted(taken.length, words)}`}
          </button>
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
          {wrong.length === 0 ? null : (
            <span className="complaint">First mend what cannot be read, or leave the row out.</span>
          )}
        </p>
      </form>
    </Dialog>
  );
}

type Words = (typeof WORDS)[ListKind];

const counted = (many: number, words: Words): string =>
  `${many.toLocaleString('en-US')} ${many === 1 ? words.one : words.many}`;

const quantityOf = (kind: ListKind, head: string) =>
  SHOP_COLUMNS[kind].find(({ heads }) => heads === head)?.quantity;

/** The rows with what was changed of them, and what of that cannot be read. */
function shownRows(
  { book }: Session,
  kind: ListKind,
  reading: ListReading,
  changes: Changes,
): readonly Shown[] {
  const currency = book.document().currency ?? 'USD';
  return reading.rows.map((row) => {
    const texts: Record<string, string> = { ...row.texts };
    const typed = new Set<string>();
    const complaints = new Map<string, string>();
    for (const { heads: head, quantity } of SHOP_COLUMNS[kind]) {
      const changed = changes.get(keyOf(row, head));
      if (typeof changed !== 'string') continue;
      texts[head] = changed;
      typed.add(head);
      if (quantity === 'text') continue;
      const read = readEntry(
        asRead(changed, () => ({ quantity })),
        { quantity, system: book.units, currency },
      );
      if (read.kind === 'unread') complaints.set(head, read.says);
    }
    return { row, texts, typed, complaints, isTaken: changes.get(keyOf(row, '')) !== false };
  });
}

function summary({ unread }: ListReading, rows: readonly Shown[], words: Words): string {
  if (rows.length === 0 && unread.length === 0)
    return `What is read of it stands here before any of it is added.`;
  const look = rows.filter(({ row }) => !row.sure).length;
  const missed = unread.filter(({ expected }) => !expected).length;
  return [
    `${counted(rows.length, words)} read`,
    ...(look === 0 ? [] : [`${look} to look at`]),
    ...(missed === 0 ? [] : [`${missed} ${missed === 1 ? 'line' : 'lines'} not read`]),
  ].join(', ');
}

interface BareUnitsProps {
  readonly reading: ListReading;
  readonly chosen: BareUnit | undefined;
  readonly onChoose: (unit: BareUnit) => void;
}

/** What numbers without a unit are in: as the reader took them, until its maker says otherwise. */
function BareUnits({ reading: { bare }, chosen, onChoose }: BareUnitsProps) {
  const name = useId();
  if (bare === undefined && chosen === undefined) return null;
  const is = chosen ?? bare?.unit;
  return (
    <fieldset className="from-text-units">
      <legend>Numbers without a unit are in</legend>
      {UNITS.map(([unit, says]) => (
        <label key={unit}>
          <input type="radio" name={name} checked={unit === is} onChange={() => onChoose(unit)} />{' '}
          {says}
        </label>
      ))}
      {bare === undefined ? null : (
        <p className={bare.asks ? 'from-text-asks' : 'quiet'}>
          {bare.asks ? `${bare.why} Check that this is so.` : bare.why}
        </p>
      )}
    </fieldset>
  );
}
