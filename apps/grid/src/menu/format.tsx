import {
  BACKGROUNDS,
  type CellStyle,
  type CellTraits,
  quantityUnits,
  readEntry,
  type Show,
} from '@kerfbook/workbook';
import { type ReactNode, useId, useState } from 'react';
import { describe } from '../commands/commands.ts';
import { Dialog } from '../library/dialog.tsx';
import type { Session } from '../session/session.ts';
import { Form } from './form.tsx';
import {
  ALIGNS,
  DENOMINATORS,
  FILL_CHOICES,
  KINDS,
  ROLES,
  STYLES,
  styleOf,
  unitChoices,
} from './traits.ts';

interface FormatProps {
  readonly session: Session;
  readonly onClose: () => void;
}

/** What the selected cells are, how they are written, and what they are for (G59, G61). */
export function Format({ session, onClose }: FormatProps) {
  const cell = session.current();
  const [quantity, setQuantity] = useState<string>(cell.quantity ?? '');
  const [style, setStyle] = useState(styleOf(cell.show));
  const [role, setRole] = useState<string>(cell.role ?? '');
  const [least, setLeast] = useState(bound(cell.allow?.min));
  const [most, setMost] = useState(bound(cell.allow?.max));
  const [list, setList] = useState(cell.allow?.list?.join('\n') ?? '');
  const [cellStyle, setCellStyle] = useState<CellStyle>(cell.style ?? {});
  const [says, setSays] = useState<string>();
  const id = useId();
  const units = unitChoices(quantity);
  const words = quantity === 'text';
  return (
    <Dialog title="Format" onClose={onClose}>
      <Form
        does="Apply format"
        onClose={onClose}
        onDo={() => {
          const read = traitsFrom(session, { quantity, style, role, least, most, list });
          if (typeof read === 'string') {
            setSays(read);
            return;
          }
          describe(session, {
            ...read,
            style: Object.keys(cellStyle).length === 0 ? null : cellStyle,
          });
          onClose();
        }}
      >
        <div className="asked-even">
          <Choice
            label="Kind"
            id={`${id}q`}
            value={quantity}
            choices={KINDS}
            onChoose={setQuantity}
          />
          <Choice label="Used as" id={`${id}r`} value={role} choices={ROLES} onChoose={setRole} />
          <Choice
            label="Shown as"
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
              label="Unit"
              id={`${id}u`}
              value={style.unit}
              choices={units}
              onChoose={(unit) => setStyle({ ...style, unit })}
            />
          )}
        </div>
        <StyleChoices id={id} style={cellStyle} onStyle={setCellStyle}>
          {words ? null : (
            <>
              <Text label="At least" id={`${id}a`} value={least} onText={setLeast} />
              <Text label="At most" id={`${id}z`} value={most} onText={setMost} />
            </>
          )}
        </StyleChoices>
        {words ? (
          <label htmlFor={`${id}l`}>
            Allowed entries, one per line
            <textarea
              id={`${id}l`}
              className="field"
              rows={4}
              value={list}
              onChange={(event) => setList(event.target.value)}
            />
          </label>
        ) : null}
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
      </Form>
    </Dialog>
  );
}

interface StyleProps {
  readonly id: string;
  readonly style: CellStyle;
  readonly onStyle: (style: CellStyle) => void;
  /** What stands before them in their line. */
  readonly children: ReactNode;
}

/** Alignment, the background and emphasis. */
function StyleChoices({ id, style, onStyle, children }: StyleProps) {
  const { bold, italic, wrap, align, background } = style;
  const set = (changed: { [K in keyof CellStyle]?: CellStyle[K] | undefined }): void => {
    const next = Object.entries({ bold, italic, wrap, align, background, ...changed });
    onStyle(Object.fromEntries(next.filter(([, value]) => value !== undefined)) as CellStyle);
  };
  return (
    <div className="asked-even">
      {children}
      <Choice
        label="Align"
        id={`${id}g`}
        value={align ?? ''}
        choices={ALIGNS}
        onChoose={(to) =>
          set({ align: (['start', 'centre', 'end'] as const).find((a) => a === to) })
        }
      />
      <Choice
        label="Fill"
        id={`${id}f`}
        value={background ?? ''}
        choices={FILL_CHOICES}
        onChoose={(to) => set({ background: BACKGROUNDS.find((one) => one === to) })}
      />
      <p className="asked-line asked-ticks">
        <label>
          <input
            type="checkbox"
            checked={bold === true}
            onChange={(event) => set({ bold: event.target.checked || undefined })}
          />{' '}
          Bold
        </label>
        <label>
          <input
            type="checkbox"
            checked={italic === true}
            onChange={(event) => set({ italic: event.target.checked || undefined })}
          />{' '}
          Italic
        </label>
        <label>
          <input
            type="checkbox"
            checked={wrap === true}
            onChange={(event) => set({ wrap: event.target.checked || undefined })}
          />{' '}
          Wrap words
        </label>
      </p>
    </div>
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
    return '"At least" is more than "At most". Swap the two.';
  }
  const decimals = style.decimals.trim();
  if (style.as === 'decimal' && !/^(?:\d|10)?$/.test(decimals)) {
    return `Decimals are a whole number from 0 to 10; "${decimals}" is not one.`;
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
  return reading.kind === 'unread' ? reading.says : `"${text}" is not a number.`;
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
    <p className="asked-line">
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
    <p className="asked-line">
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
