import {
  type CellTraits,
  nameProblem,
  quantityUnits,
  readEntry,
  type Show,
} from '@kerfbook/workbook';
import { type FormEvent, useId, useState } from 'react';
import { selectedOnSheet } from '../commands/commands.ts';
import { linesInWords, removal, usersOf } from '../commands/structure.ts';
import { Dialog } from '../library/dialog.tsx';
import { placesOf } from '../selection/area.ts';
import type { Session } from '../session.ts';
import type { Question } from './menu.tsx';
import { DENOMINATORS, KINDS, ROLES, STYLES, styleOf, unitChoices } from './traits.ts';

interface AskedProps {
  readonly session: Session;
  readonly what: Question;
  readonly onClose: () => void;
}

/** The dialog behind a menu item. */
export default function Asked({ session, what, onClose }: AskedProps) {
  switch (what) {
    case 'name':
      return <NameCell session={session} onClose={onClose} />;
    case 'remark':
      return <Remark session={session} onClose={onClose} />;
    case 'format':
      return <Format session={session} onClose={onClose} />;
    case 'removeRows':
      return <Remove session={session} line="row" onClose={onClose} />;
    case 'removeColumns':
      return <Remove session={session} line="column" onClose={onClose} />;
  }
}

type PartProps = Omit<AskedProps, 'what'>;

interface FormProps {
  readonly does: string;
  readonly onDo: () => void;
  readonly onClose: () => void;
  readonly children: React.ReactNode;
}

function Form({ does, onDo, onClose, children }: FormProps) {
  return (
    <form
      className="asked"
      onSubmit={(event: FormEvent) => {
        event.preventDefault();
        onDo();
      }}
    >
      {children}
      <p className="actions">
        <button type="submit" className="button button-main">
          {does}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Leave it
        </button>
      </p>
    </form>
  );
}

/** Names the current cell, changes its name, or takes it away (G37). */
function NameCell({ session, onClose }: PartProps) {
  const cell = session.current();
  const [name, setName] = useState(cell.name ?? '');
  const [says, setSays] = useState<string>();
  const field = useId();
  const wanted = name.trim();
  return (
    <Dialog title={`Name of ${cell.address}`} onClose={onClose}>
      <Form
        does="Name it"
        onClose={onClose}
        onDo={() => {
          const problem = wanted === '' ? undefined : nameProblem(wanted);
          if (problem !== undefined) {
            setSays(
              problem.offer === undefined
                ? problem.says
                : `${problem.says} ${problem.offer} would do.`,
            );
            return;
          }
          if (wanted === (cell.name ?? '')) {
            onClose();
            return;
          }
          const result = session.apply(
            cell.name !== undefined && wanted !== ''
              ? { do: 'renameName', from: cell.name, to: wanted }
              : { do: 'nameCell', at: session.at, name: wanted === '' ? null : wanted },
          );
          if (result.ok) onClose();
          else setSays(result.says);
        }}
      >
        <label htmlFor={field}>
          What formulas call it
          <input
            id={field}
            className="field"
            value={name}
            spellCheck={false}
            autoComplete="off"
            onChange={(event) => {
              setName(event.target.value);
              setSays(undefined);
            }}
          />
        </label>
        <p className="quiet">
          {cell.name === undefined
            ? 'Formulas on every sheet may use it.'
            : 'Formulas that use it follow. Empty, it loses its name.'}
        </p>
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
      </Form>
    </Dialog>
  );
}

function Remark({ session, onClose }: PartProps) {
  const cell = session.current();
  const [remark, setRemark] = useState(cell.remark ?? '');
  const field = useId();
  return (
    <Dialog title={`Remark on ${cell.name ?? cell.address}`} onClose={onClose}>
      <Form
        does="Keep it"
        onClose={onClose}
        onDo={() => {
          describe(session, { remark: remark.trim() === '' ? null : remark.trim() }, true);
          onClose();
        }}
      >
        <label htmlFor={field}>
          Shown with the cell
          <textarea
            id={field}
            className="field"
            rows={4}
            value={remark}
            onChange={(event) => setRemark(event.target.value)}
          />
        </label>
      </Form>
    </Dialog>
  );
}

/** Says the same of every selected cell, or of the current one only. */
function describe(session: Session, traits: CellTraits, one = false): void {
  const { sheet, row, column } = session.at;
  const places = one ? [{ row, column }] : placesOf(selectedOnSheet(session));
  session.apply({
    do: 'describeCells',
    sheet,
    cells: places.map((place) => ({ ...place, traits })),
  });
}

/** What the selected cells are, how they are written, and what they are for (G59, G61). */
function Format({ session, onClose }: PartProps) {
  const cell = session.current();
  const [quantity, setQuantity] = useState<string>(cell.quantity ?? '');
  const [style, setStyle] = useState(styleOf(cell.show));
  const [role, setRole] = useState<string>(cell.role ?? '');
  const [least, setLeast] = useState(bound(cell.allow?.min));
  const [most, setMost] = useState(bound(cell.allow?.max));
  const [list, setList] = useState(cell.allow?.list?.join('\n') ?? '');
  const [says, setSays] = useState<string>();
  const id = useId();
  const units = unitChoices(quantity);
  const words = quantity === 'text';
  return (
    <Dialog title="What it is and how it looks" onClose={onClose}>
      <Form
        does="Do so"
        onClose={onClose}
        onDo={() => {
          const read = traitsFrom(session, { quantity, style, role, least, most, list });
          if (typeof read === 'string') {
            setSays(read);
            return;
          }
          describe(session, read);
          onClose();
        }}
      >
        <div className="asked-row">
          <Choice
            label="What it is"
            id={`${id}q`}
            value={quantity}
            choices={KINDS}
            onChoose={setQuantity}
          />
          <Choice
            label="What it is for"
            id={`${id}r`}
            value={role}
            choices={ROLES}
            onChoose={setRole}
          />
        </div>
        <div className="asked-row">
          <Choice
            label="Written as"
            id={`${id}s`}
            value={style.as}
            choices={STYLES}
            onChoose={(as) => setStyle({ ...style, as })}
          />
          {style.as === 'fraction' || style.as === 'feet-inches' ? (
            <Choice
              label="To the nearest"
              id={`${id}d`}
              value={style.denominator}
              choices={DENOMINATORS}
              onChoose={(denominator) => setStyle({ ...style, denominator })}
            />
          ) : null}
          {style.as === 'decimal' ? (
            <Text
              label="Decimals"
              id={`${id}p`}
              value={style.decimals}
              onText={(decimals) => setStyle({ ...style, decimals })}
            />
          ) : null}
          {units.length < 2 ? null : (
            <Choice
              label="In"
              id={`${id}u`}
              value={style.unit}
              choices={units}
              onChoose={(unit) => setStyle({ ...style, unit })}
            />
          )}
        </div>
        {words ? (
          <label htmlFor={`${id}l`}>
            Takes only these, one a line
            <textarea
              id={`${id}l`}
              className="field"
              rows={4}
              value={list}
              onChange={(event) => setList(event.target.value)}
            />
          </label>
        ) : (
          <div className="asked-row">
            <Text label="Takes no less than" id={`${id}a`} value={least} onText={setLeast} />
            <Text label="Takes no more than" id={`${id}z`} value={most} onText={setMost} />
          </div>
        )}
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
      </Form>
    </Dialog>
  );
}

const bound = (value: number | undefined): string => (value === undefined ? '' : String(value));

interface Wanted {
  readonly quantity: string;
  readonly style: ReturnType<typeof styleOf>;
  readonly role: string;
  readonly least: string;
  readonly most: string;
  readonly list: string;
}

/** What the form says of cells, or the sentence about what in it cannot be read. */
function traitsFrom(session: Session, wanted: Wanted): CellTraits | string {
  const { quantity, style, role, list } = wanted;
  const words = quantity === 'text';
  const [min, max] = [wanted.least, wanted.most].map((text) => boundFrom(session, text, quantity));
  if (typeof min === 'string') return min;
  if (typeof max === 'string') return max;
  if (min !== undefined && max !== undefined && min > max) {
    return 'The least it takes is more than the most. Exchange the two.';
  }
  const decimals = style.decimals.trim();
  if (style.as === 'decimal' && !/^(?:\d|10)?$/.test(decimals)) {
    return `Decimals are a whole number from 0 to 10; "${decimals}" is none.`;
  }
  const choices = list
    .split('\n')
    .map((one) => one.trim())
    .filter((one) => one !== '');
  // What this form does not show stays as it was.
  const { whole, from } = session.current().allow ?? {};
  const allow = {
    ...(words || min === undefined ? {} : { min }),
    ...(words || max === undefined ? {} : { max }),
    ...(words || whole === undefined ? {} : { whole }),
    ...(words && choices.length > 0 ? { list: choices } : {}),
    ...(words && from !== undefined ? { from } : {}),
  };
  const inParts = style.as === 'fraction' || style.as === 'feet-inches';
  const show = {
    ...(style.as === '' ? {} : { as: style.as }),
    ...(quantityUnits(quantity).includes(style.unit) ? { unit: style.unit } : {}),
    ...(style.as === 'decimal' && decimals !== '' ? { decimals: Number(decimals) } : {}),
    ...(inParts ? { denominator: Number(style.denominator) } : {}),
  } as Show;
  return {
    quantity: quantity === '' ? null : (quantity as NonNullable<CellTraits['quantity']>),
    role: role === '' ? null : (role as NonNullable<CellTraits['role']>),
    show: Object.keys(show).length === 0 ? null : show,
    allow: Object.keys(allow).length === 0 ? null : allow,
  };
}

/** A bound as it would be typed into the cell: with its unit, as a fraction. */
function boundFrom({ book }: Session, text: string, quantity: string): number | string | undefined {
  if (text.trim() === '') return undefined;
  const reading = readEntry(text, {
    system: book.units,
    currency: book.currency,
    ...(quantity === '' ? {} : { quantity: quantity as NonNullable<CellTraits['quantity']> }),
  });
  if (reading.kind === 'value' && typeof reading.value === 'number') return reading.value;
  return reading.kind === 'unread'
    ? reading.says
    : `"${text}" is no number to hold a value against.`;
}

interface ChoiceProps {
  readonly label: string;
  readonly id: string;
  readonly value: string;
  readonly choices: readonly (readonly [value: string, says: string])[];
  readonly onChoose: (value: string) => void;
}

function Choice({ label, id, value, choices, onChoose }: ChoiceProps) {
  return (
    <p className="asked-part">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        className="field"
        value={value}
        onChange={(event) => onChoose(event.target.value)}
      >
        {choices.map(([one, says]) => (
          <option key={one} value={one}>
            {says}
          </option>
        ))}
      </select>
    </p>
  );
}

interface TextProps {
  readonly label: string;
  readonly id: string;
  readonly value: string;
  readonly onText: (text: string) => void;
}

function Text({ label, id, value, onText }: TextProps) {
  return (
    <p className="asked-part">
      <label htmlFor={id}>{label}</label>
      <input
        id={id}
        className="field"
        inputMode="decimal"
        autoComplete="off"
        value={value}
        onChange={(event) => onText(event.target.value)}
      />
    </p>
  );
}

const NAMED = 12;

/** Deletes rows or columns, after saying who uses what would go (G40). */
function Remove({ session, line, onClose }: PartProps & { readonly line: 'row' | 'column' }) {
  const [found] = useState(() => {
    const going = removal(session, line);
    if (going === undefined) return undefined;
    return { ...going, users: usersOf(session, session.at.sheet, going.area) };
  });
  if (found === undefined) {
    return (
      <Dialog title="Nothing to delete" onClose={onClose}>
        <p>These are beyond the edge of the sheet: there is nothing in them.</p>
      </Dialog>
    );
  }
  const { users, area, edit } = found;
  const what = linesInWords(area, line);
  return (
    <Dialog title={`Delete ${what}?`} onClose={onClose}>
      <Form
        does={`Delete ${what}`}
        onClose={onClose}
        onDo={() => {
          session.apply(edit);
          onClose();
        }}
      >
        {users.length === 0 ? (
          <p>No formula elsewhere uses what is in there.</p>
        ) : (
          <>
            <p>
              {users.length === 1 ? 'One cell uses' : `${users.length} cells use`} what is in there,
              and may show #REF! afterwards:
            </p>
            <ul>
              {users.slice(0, NAMED).map(({ address, label }) => (
                <li key={address}>
                  {label} <span className="quiet">{address}</span>
                </li>
              ))}
              {users.length > NAMED ? <li>and {users.length - NAMED} more</li> : null}
            </ul>
          </>
        )}
        <p className="quiet">It can be undone.</p>
      </Form>
    </Dialog>
  );
}
