import {
  CUSTOMER_PAGES,
  type CustomerPageKind,
  type CustomerPageMade,
  customerPage,
  dayWords,
  isDay,
  MOST_VALID_DAYS,
  QUOTE_PARTS,
  saidOf,
  VALID_DAYS,
} from '@kerfbook/guide';
import { type BookStore, fileNameFor, type Locks } from '@kerfbook/keeping';
import { keepSent, type SentPage, sentOf } from '@kerfbook/keeping/shelf';
import { type At, type OpenWorkbook, readEntry } from '@kerfbook/workbook';
import { type ReactNode, useEffect, useId, useState } from 'react';
import { today } from '../commands/usual.ts';
import { GoTo } from '../page/go-to.tsx';
import { type Page, pageSize } from '../paper/paper.ts';
import { PaperDesk, Tick } from '../paper/paper-desk.tsx';
import { printPage } from '../paper/printing.ts';
import type { Session } from '../session/session.ts';
import { download } from '../storage/download.ts';
import {
  CUSTOMER_KEYS,
  type CustomerChoice,
  FIRST_CHOICE,
  keepChoice,
  readChoice,
} from './customer-choice.ts';

interface CustomerDeskProps {
  readonly session: Session;
  readonly store: BookStore;
  readonly bookId: string;
  /** Grows with every change of the workbook. */
  readonly changes: number;
  readonly page: Page;
  readonly onPage: (page: Page) => void;
  /** Whom the paper is for, to be chosen. */
  readonly forWhom: ReactNode;
  /** What the price may lack. */
  readonly left: ReactNode;
  readonly onGo: (at: At) => void;
}

/** What a maker types for the page that is being made. */
interface Typed {
  readonly day: string;
  readonly valid: string;
  readonly paid: string;
}

const KINDS = Object.keys(CUSTOMER_PAGES) as CustomerPageKind[];

/** The quote, the care note and the receipt: looked at, printed, saved, and kept as they were sent. */
export default function CustomerDesk(props: CustomerDeskProps) {
  const { session, store, bookId, changes, page, onPage, forWhom, left, onGo } = props;
  const { book } = session;
  const [kind, setKind] = useState<CustomerPageKind>('quote');
  const [typed, setTyped] = useState<Typed>({ day: today(), valid: String(VALID_DAYS), paid: '' });
  const [choice, setChoice] = useCustomerChoice(store, bookId);
  const [sent, setSent] = useState<readonly SentPage[]>([]);
  const [shown, setShown] = useState<SentPage>();
  const [made, setMade] = useState<CustomerPageMade>();
  const [says, setSays] = useState<string>();
  useEffect(() => {
    let here = true;
    sentOf(store, bookId).then(
      (pages) => {
        if (here) setSent(pages);
      },
      () => {
        if (here) setSays('What was sent could not be read on this device.');
      },
    );
    return () => {
      here = false;
    };
  }, [store, bookId]);
  const wrong = wrongIn(book, kind, typed);
  const make = (number?: number): CustomerPageMade =>
    customerPage(session.settled(), {
      kind,
      paper: page.paper,
      day: typed.day,
      valid: Number(typed.valid),
      without: CUSTOMER_KEYS.filter((key) => !choice[key]),
      before: paymentsIn(sent),
      ...(typed.paid.trim() === '' ? {} : { paid: amountIn(book, typed.paid) ?? Number.NaN }),
      ...(number === undefined ? {} : { number }),
      ...(number === undefined || made === undefined ? {} : { options: made.options }),
    });
  // biome-ignore lint/correctness/useExhaustiveDependencies: the workbook changes within.
  useEffect(() => {
    if (wrong !== undefined) return undefined;
    // What was pressed is painted before that.
    const later = setTimeout(() => setMade(make()), 30);
    return () => clearTimeout(later);
  }, [session, changes, kind, page.paper, typed, choice, sent, wrong]);
  const keep = async (): Promise<void> => {
    setSays(undefined);
    try {
      const one = await keepSent(
        store,
        bookId,
        {
          kind,
          day: typed.day,
          page: (number) => make(number).page,
          ...(made?.receipt === undefined ? {} : { paid: made.receipt.paid }),
        },
        { now: Date.now(), locks: locksHere() },
      );
      setSent(await sentOf(store, bookId));
      setShown(one);
      setTyped({ ...typed, paid: '' });
    } catch (error) {
      setSays(`Not kept: ${error instanceof Error ? error.message : String(error)}`);
    }
  };
  const html = shown?.page ?? made?.page;
  const name = shown === undefined ? CUSTOMER_PAGES[kind] : nameOf(shown);
  const isReady = shown !== undefined || (made !== undefined && wrong === undefined);
  return (
    <PaperDesk
      title="Shop sheets"
      page={page}
      onPage={onPage}
      isUpright
      isBare={!isReady}
      onPrint={() => printPage(html ?? '', name)}
      chosen={`for the customer, ${name.toLowerCase()}`}
      notes={
        <>
          {says === undefined ? null : (
            <p className="complaint" role="alert">
              {says}
            </p>
          )}
          {shown === undefined ? (
            <>
              {wrong === undefined ? null : <p className="complaint">{wrong}</p>}
              {wrong === undefined && made?.lacks !== undefined ? (
                <p className="complaint">{made.lacks}</p>
              ) : null}
              {kind === 'quote'
                ? made?.problems.map(({ at, says: one }) => (
                    <p key={`${at.row} ${at.column}`} className="complaint">
                      {one} <GoTo book={book} at={at} onGo={onGo} />
                    </p>
                  ))
                : null}
              {kind === 'care' ? null : left}
            </>
          ) : (
            <p className="quiet">
              {nameOf(shown)} as it was sent. It stays as it is.{' '}
              <button type="button" className="button-plain" onClick={() => setShown(undefined)}>
                Back
              </button>
            </p>
          )}
        </>
      }
      choices={
        <>
          {forWhom}
          <fieldset>
            <legend>Page</legend>
            {KINDS.map((one) => (
              <label key={one}>
                <input
                  type="radio"
                  name="customer page"
                  checked={kind === one}
                  onChange={() => {
                    setKind(one);
                    setShown(undefined);
                  }}
                />
                {CUSTOMER_PAGES[one]}
              </label>
            ))}
          </fieldset>
          <Fields book={book} kind={kind} typed={typed} onTyped={setTyped} />
          <p className="actions">
            <button
              type="button"
              className="button"
              disabled={!isReady}
              onClick={() => download(fileOf(name, book), html ?? '', 'text/html')}
            >
              Save as file
            </button>
            <button
              type="button"
              className="button"
              disabled={!isReady || shown !== undefined || made?.lacks !== undefined}
              onClick={() => void keep()}
            >
              Keep as sent
            </button>
          </p>
          <SentList sent={sent} shown={shown} onShow={setShown} />
          {kind === 'quote' ? <Choices book={book} choice={choice} onChoice={setChoice} /> : null}
        </>
      }
    >
      {html === undefined ? (
        <p className="quiet">Making the page …</p>
      ) : (
        <Preview html={html} title={name} page={page} />
      )}
    </PaperDesk>
  );
}

/** `Quote 12`. */
const nameOf = ({ kind, number }: SentPage): string =>
  `${CUSTOMER_PAGES[kind as CustomerPageKind] ?? 'Page'} ${number}`;

const fileOf = (name: string, book: OpenWorkbook): string =>
  fileNameFor(`${name} ${book.title}`).replace(/\.kerfbook\.json$/, '.html');

const paymentsIn = (sent: readonly SentPage[]) =>
  sent.flatMap(({ kind, day, number, paid }) =>
    kind === 'receipt' && paid !== undefined ? [{ day, number, amount: paid }] : [],
  );

/** The browser's, which it may refuse. */
function locksHere(): Locks | undefined {
  try {
    return navigator.locks ?? undefined;
  } catch {
    return undefined;
  }
}

function amountIn({ units, currency }: OpenWorkbook, text: string): number | undefined {
  const read = readEntry(text, { quantity: 'money', system: units, currency });
  return read.kind === 'value' && typeof read.value === 'number' ? read.value : undefined;
}

/** What of it cannot be read, in a sentence. */
function wrongIn(book: OpenWorkbook, kind: CustomerPageKind, typed: Typed): string | undefined {
  if (!isDay(typed.day)) return 'Choose the date that stands on the page.';
  const valid = /^\d{1,4}$/.test(typed.valid.trim()) ? Number(typed.valid) : 0;
  if (kind === 'quote' && (valid < 1 || valid > MOST_VALID_DAYS)) {
    return `A quote holds from 1 to ${MOST_VALID_DAYS} days. Type how many.`;
  }
  if (kind === 'receipt' && typed.paid.trim() !== '' && amountIn(book, typed.paid) === undefined) {
    return `"${typed.paid.trim()}" is no amount. Type what was paid, such as 500.`;
  }
  return undefined;
}

interface FieldsProps {
  readonly book: OpenWorkbook;
  readonly kind: CustomerPageKind;
  readonly typed: Typed;
  readonly onTyped: (typed: Typed) => void;
}

function Fields({ kind, typed, onTyped }: FieldsProps) {
  const id = useId();
  return (
    <div className="customer-fields">
      <label htmlFor={`${id} day`}>Date</label>
      <input
        id={`${id} day`}
        className="field"
        type="date"
        value={typed.day}
        onChange={({ currentTarget: { value } }) => onTyped({ ...typed, day: value })}
      />
      {kind === 'quote' ? (
        <>
          <label htmlFor={`${id} valid`}>Valid, days</label>
          <input
            id={`${id} valid`}
            className="field"
            inputMode="numeric"
            value={typed.valid}
            title={`${VALID_DAYS} days is common practice, no source.`}
            onChange={({ currentTarget: { value } }) => onTyped({ ...typed, valid: value })}
          />
        </>
      ) : null}
      {kind === 'receipt' ? (
        <>
          <label htmlFor={`${id} paid`}>Paid</label>
          <input
            id={`${id} paid`}
            className="field"
            inputMode="decimal"
            value={typed.paid}
            placeholder="Deposit, or what is due"
            onChange={({ currentTarget: { value } }) => onTyped({ ...typed, paid: value })}
          />
        </>
      ) : null}
    </div>
  );
}

interface SentListProps {
  readonly sent: readonly SentPage[];
  readonly shown: SentPage | undefined;
  readonly onShow: (sent: SentPage) => void;
}

/** What was sent of this workbook, the newest first; each opens as it was. */
function SentList({ sent, shown, onShow }: SentListProps) {
  return (
    <fieldset>
      <legend>Sent</legend>
      {sent.length === 0 ? (
        <p className="quiet">Nothing yet. A page gets its number when you keep it as sent.</p>
      ) : (
        <ul className="customer-sent">
          {[...sent].reverse().map((one) => (
            <li key={one.number}>
              <button
                type="button"
                className="button-plain"
                aria-current={shown?.number === one.number}
                onClick={() => onShow(one)}
              >
                {nameOf(one)}, {dayWords(one.day)}
              </button>
            </li>
          ))}
        </ul>
      )}
    </fieldset>
  );
}

interface PreviewProps {
  readonly html: string;
  readonly title: string;
  readonly page: Page;
}

/** The page as wide as its paper; nothing in it runs. */
function Preview({ html, title, page }: PreviewProps) {
  const { width, height } = pageSize({ ...page, landscape: false });
  const [tall, setTall] = useState(0);
  return (
    <iframe
      className="customer-frame"
      title={title}
      sandbox="allow-same-origin"
      srcDoc={html}
      style={{ inlineSize: `${width}mm`, blockSize: `max(${height}mm, ${tall}px)` }}
      onLoad={({ currentTarget }) => setTall(currentTarget.contentDocument?.body.scrollHeight ?? 0)}
    />
  );
}

/** What a customer may see of this workbook, remembered on this device. */
function useCustomerChoice(
  store: BookStore,
  bookId: string,
): readonly [CustomerChoice, (choice: CustomerChoice) => void] {
  const [choice, setChoice] = useState(FIRST_CHOICE);
  useEffect(() => {
    // Where it cannot be read it is as at first, which shows nothing that was not meant to be seen.
    readChoice(store, bookId).then(setChoice, () => setChoice(FIRST_CHOICE));
  }, [store, bookId]);
  const choose = (next: CustomerChoice): void => {
    setChoice(next);
    // Where it cannot be kept it counts for this print all the same.
    keepChoice(store, bookId, next).catch(() => undefined);
  };
  return [choice, choose];
}

interface ChoicesProps {
  readonly book: OpenWorkbook;
  readonly choice: CustomerChoice;
  readonly onChoice: (choice: CustomerChoice) => void;
}

/** Names that bring a line, with what it says. */
const NAMES = [
  ['finish', 'finish', 'Finish'],
  ['deposit', 'deposit', 'Deposit'],
  ['perSeat', 'price_per_seat', 'Price per seat'],
] as const;

function Choices({ book, choice, onChoice }: ChoicesProps) {
  const said = saidOf(book);
  const { due, terms, letterhead } = said.head;
  const inHead = 'press the workbook\'s name, then "Name, customer, dates", and type';
  const missing = [
    ...(choice.wood && said.wood === undefined
      ? ['Wood: name a cell species and it is printed.']
      : []),
    ...NAMES.flatMap(([part, name, says]) =>
      choice[part] && said.shown(name) === undefined && said.number('quote_deposit') === undefined
        ? [`${says}: name a cell ${name} and it is printed.`]
        : [],
    ),
    ...(said.number('tax_percent') === undefined
      ? ['Tax: name a cell tax_percent and it is printed.']
      : []),
    ...(choice.included && said.shown('included') === undefined
      ? [
          'What is included is common practice, no source. Name cells included and not_included and their words are printed instead.',
        ]
      : []),
    ...(choice.letterhead && letterhead === undefined ? [`Letterhead: ${inHead} your shop.`] : []),
    ...(choice.due && due === undefined ? [`Delivery date: ${inHead} a due date.`] : []),
    ...(choice.terms && terms === undefined ? [`Terms: ${inHead} them.`] : []),
  ];
  return (
    <fieldset>
      <legend>The customer sees</legend>
      {CUSTOMER_KEYS.map((key) => (
        <Tick
          key={key}
          says={QUOTE_PARTS[key]}
          on={choice[key]}
          onTick={(on) => onChoice({ ...choice, [key]: on })}
        />
      ))}
      {missing.map((one) => (
        <p key={one} className="quiet">
          {one}
        </p>
      ))}
    </fieldset>
  );
}
