import { type Edit, LIMITS } from '@kerfbook/workbook';
import { type FormEvent, useId, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Dialog } from './dialog.tsx';
import {
  keptLetterhead,
  type Letterhead,
  LetterheadFields,
  typedLetterhead,
} from './letterhead-fields.tsx';
import './about.css';

interface AboutFormProps {
  readonly session: Session;
  readonly onClose: () => void;
}

/** What stands at the head of every page, in the order in which it is asked for. */
const LINES = [
  { key: 'title', says: 'Name', about: '' },
  { key: 'customer', says: 'Customer', about: 'Who it is for.' },
  { key: 'job', says: 'Job number', about: '' },
  { key: 'due', says: 'Due date', about: '' },
  {
    key: 'agreed',
    says: 'Price agreed on',
    about: 'From that day nothing of your shop’s is offered that would change the price.',
  },
  { key: 'revision', says: 'Revision', about: 'Which revision the pages show: B, 3.' },
] as const;

const LONG = [
  { key: 'about', says: 'What it is about', about: '' },
  {
    key: 'terms',
    says: 'Terms',
    about: 'Payment and delivery, for the customer’s page.',
  },
] as const;

type Key = (typeof LINES)[number]['key'] | (typeof LONG)[number]['key'];
type Wanted = Readonly<Record<Key, string>> & { readonly letterhead: Letterhead };

const isDay = (key: Key): boolean => key === 'due' || key === 'agreed';

/** What is said of the workbook as a whole. All that was changed is one step of undo. */
export function AboutForm({ session, onClose }: AboutFormProps) {
  const { head } = session.book;
  const [start] = useState<Wanted>(() => ({
    title: head.title,
    customer: head.customer ?? '',
    job: head.job ?? '',
    due: head.due ?? '',
    agreed: head.agreed ?? '',
    revision: head.revision ?? '',
    about: head.about ?? '',
    terms: head.terms ?? '',
    letterhead: typedLetterhead(head.letterhead),
  }));
  const [wanted, setWanted] = useState(start);
  const [says, setSays] = useState<string>();
  const field = useId();
  const complaint = useId();
  const submit = (event: FormEvent<HTMLFormElement>): void => {
    event.preventDefault();
    // A day that is half typed has no value: it must not be taken for none.
    const half = [...event.currentTarget.elements].find(
      (one) => one instanceof HTMLInputElement && one.validity.badInput,
    );
    if (half !== undefined) {
      const name = LINES.find(({ key }) => half.id === `${field}${key}`)?.says ?? 'A date';
      setSays(`${name}: the day is not whole. Type month, day and year, or clear it.`);
      (half as HTMLInputElement).focus();
      return;
    }
    const edit = headEdit(start, wanted);
    if (typeof edit === 'string') {
      setSays(edit);
      return;
    }
    const result = edit === undefined ? undefined : session.apply(edit);
    if (result?.ok === false) setSays(result.says);
    else onClose();
  };
  const set = (key: Key) => (text: string) => setWanted((was) => ({ ...was, [key]: text }));
  const { mayChange } = session;
  return (
    <Dialog title="Name, customer, dates" onClose={onClose}>
      <form className="about-form" noValidate onSubmit={submit}>
        {LINES.map(({ key, says: label, about }) => (
          <p key={key} className="about-line">
            <label htmlFor={`${field}${key}`}>{label}</label>
            <input
              id={`${field}${key}`}
              className="field"
              type={isDay(key) ? 'date' : 'text'}
              value={wanted[key]}
              maxLength={isDay(key) ? undefined : 200}
              autoComplete="off"
              readOnly={!mayChange}
              aria-invalid={key === 'title' && says !== undefined}
              aria-describedby={says === undefined ? undefined : complaint}
              onChange={(event) => set(key)(event.target.value)}
            />
            {about === '' ? null : <span className="quiet">{about}</span>}
          </p>
        ))}
        {LONG.map(({ key, says: label, about }) => (
          <p key={key} className="about-line">
            <label htmlFor={`${field}${key}`}>{label}</label>
            <textarea
              id={`${field}${key}`}
              className="field"
              rows={3}
              value={wanted[key]}
              maxLength={LIMITS.text}
              readOnly={!mayChange}
              onChange={(event) => set(key)(event.target.value)}
            />
            {about === '' ? null : <span className="quiet">{about}</span>}
          </p>
        ))}
        <LetterheadFields
          letterhead={wanted.letterhead}
          readOnly={!mayChange}
          onChange={(letterhead) => setWanted((was) => ({ ...was, letterhead }))}
        />
        {says === undefined ? null : (
          <p id={complaint} className="complaint" role="alert">
            {says}
          </p>
        )}
        <p className="actions">
          {mayChange ? (
            <button type="submit" className="button button-main">
              Save
            </button>
          ) : null}
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
        </p>
      </form>
    </Dialog>
  );
}

/** The edit that makes of a head what is wanted; nothing where it is so already, a sentence where it will not do. */
export function headEdit(start: Wanted, wanted: Wanted): Edit | string | undefined {
  if (wanted.title.trim() === '') return 'A workbook needs a name. Type one.';
  const set: Partial<Record<Key, string | null>> = {};
  const [before, letterhead] = [start, wanted].map((one) => keptLetterhead(one.letterhead));
  for (const { key } of [...LINES, ...LONG]) {
    const text = wanted[key].trim();
    if (text !== start[key].trim()) set[key] = text === '' ? null : text;
  }
  const isOther = JSON.stringify(before) !== JSON.stringify(letterhead);
  if (Object.keys(set).length === 0 && !isOther) return undefined;
  return { do: 'setBook', set: { ...set, ...(isOther ? { letterhead: letterhead ?? null } : {}) } };
}
