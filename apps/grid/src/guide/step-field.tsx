import { numberWords } from '@kerfbook/guide';
import type { CellView } from '@kerfbook/workbook';
import {
  type KeyboardEvent,
  type ReactNode,
  useEffect,
  useId,
  useLayoutEffect,
  useRef,
  useState,
} from 'react';
import type { NoteDraft } from './drafts.ts';
import type { Seen } from './guide-page.tsx';
import { type Offered, offeredAt } from './offered.ts';
import { cellOf, entryEdit, type StepHead, type StepsTable } from './steps-table.ts';

interface StepFieldProps {
  readonly seen: Seen;
  readonly table: StepsTable;
  readonly row: number;
  /** Hears of what is being written. */
  readonly onDraft: NoteDraft;
  readonly head: StepHead;
  readonly label: string;
  /** What may stand in it, in a few words. */
  readonly hint?: string;
  /** Several lines. */
  readonly isLong?: boolean;
  /** Names of cells with commas between, rather than words with names in braces. */
  readonly isNames?: boolean;
  /** What chooses instead of writing. */
  readonly children?: ReactNode;
}

/** What a cell comes to, as readers are told it. */
const comesTo = (cell: CellView): string => {
  const { words } = numberWords(cell);
  return words === '' ? 'nothing' : words;
};

/** One cell of a step: written, and entered when it is left. */
export function StepField(props: StepFieldProps) {
  const { seen, table, row, head, label, hint, isLong = false, isNames = false } = props;
  const { onDraft, children } = props;
  const { session, book, plan } = seen;
  const cell = cellOf(book, table, row, head);
  const [draft, setDraft] = useState<string>();
  const [says, setSays] = useState<string>();
  const [offered, setOffered] = useState<Offered & { readonly chosen: number }>();
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  const caret = useRef<number>(undefined);
  const id = useId();
  const entry = cell?.entry ?? '';
  const text = draft ?? entry;
  // What was put in leaves the caret behind it.
  useLayoutEffect(() => {
    if (caret.current === undefined) return;
    field.current?.setSelectionRange(caret.current, caret.current);
    caret.current = undefined;
  });
  useEffect(() => onDraft(head, draft), [onDraft, head, draft]);
  useEffect(() => () => onDraft(head, undefined), [onDraft, head]);
  const look = (): void => {
    const { value = '', selectionStart = 0 } = field.current ?? {};
    const found = offeredAt(book, value, selectionStart ?? 0, isNames);
    setOffered(found === undefined ? undefined : { ...found, chosen: 0 });
  };
  const enter = (): void => {
    setOffered(undefined);
    if (draft === undefined || draft === entry) {
      setDraft(undefined);
      return;
    }
    const done = session.apply(entryEdit(book, table, row, head, draft));
    setSays(done.ok ? undefined : done.says);
    if (done.ok) setDraft(undefined);
    else session.hush();
  };
  const accept = (at: number): void => {
    const option = offered?.options[at];
    if (offered === undefined || option === undefined) return;
    caret.current = offered.start + option.text.length;
    setDraft(text.slice(0, offered.start) + option.text + text.slice(offered.end));
    setOffered(undefined);
  };
  const onKeyDown = (event: KeyboardEvent): void => {
    if (offered !== undefined) {
      const by = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
      const { length } = offered.options;
      if (by !== 0) setOffered({ ...offered, chosen: (offered.chosen + by + length) % length });
      else if (event.key === 'Enter' || event.key === 'Tab') accept(offered.chosen);
      else if (event.key === 'Escape') setOffered(undefined);
      else return;
      event.preventDefault();
      event.stopPropagation();
      return;
    }
    if (event.key === 'Escape' && draft !== undefined) {
      event.stopPropagation();
      setDraft(undefined);
      setSays(undefined);
    } else if (event.key === 'Enter' && (!isLong || event.ctrlKey || event.metaKey)) {
      event.preventDefault();
      enter();
    }
  };
  const problems = plan.problems.filter(
    ({ at }) => at.sheet === table.sheet && at.row === row && at.column === table.columns.get(head),
  );
  const about = [
    ...(hint === undefined ? [] : [`${id}hint`]),
    ...(says === undefined && problems.length === 0 ? [] : [`${id}wrong`]),
  ].join(' ');
  const common = {
    id,
    ref: field,
    className: 'field',
    value: text,
    'data-head': head,
    autoComplete: 'off',
    readOnly: !session.mayChange,
    'aria-invalid': says !== undefined || problems.length > 0,
    'aria-describedby': about === '' ? undefined : about,
    'aria-autocomplete': 'list' as const,
    'aria-controls': offered === undefined ? undefined : `${id}list`,
    'aria-activedescendant': offered === undefined ? undefined : `${id}${offered.chosen}`,
    onChange: (event: { readonly target: { readonly value: string } }) => {
      setDraft(event.target.value);
      look();
    },
    onKeyDown,
    onBlur: enter,
  };
  return (
    <div className="plan-field">
      <label htmlFor={id}>{label}</label>
      <div className="plan-writing">
        {isLong ? <textarea {...common} rows={2} /> : <input {...common} />}
        {offered === undefined ? null : (
          <div id={`${id}list`} className="plan-offered" role="listbox" aria-label="Named cells">
            {offered.options.map((option, i) => (
              <div
                key={option.text}
                id={`${id}${i}`}
                role="option"
                tabIndex={-1}
                aria-selected={i === offered.chosen}
                onPointerDown={(event) => {
                  event.preventDefault();
                  accept(i);
                }}
              >
                <strong>{option.text.replace('}', '')}</strong>
                <span className="quiet">{option.says}</span>
              </div>
            ))}
          </div>
        )}
      </div>
      {children}
      {draft === undefined && entry.startsWith('=') && cell !== undefined ? (
        <p className="quiet">comes to {comesTo(cell)}</p>
      ) : null}
      {hint === undefined ? null : (
        <p id={`${id}hint`} className="quiet">
          {hint}
        </p>
      )}
      {says === undefined && problems.length === 0 ? null : (
        <p id={`${id}wrong`} className="plan-wrong" role={says === undefined ? undefined : 'alert'}>
          {[...(says === undefined ? [] : [says]), ...problems.map((one) => one.says)].join(' ')}
        </p>
      )}
    </div>
  );
}
