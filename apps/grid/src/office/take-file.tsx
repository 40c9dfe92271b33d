import { writeTrouble } from '@kerfbook/keeping';
import { joinOffer, keepJoin } from '@kerfbook/keeping/shelf';
import { type FormEvent, useEffect, useId, useState } from 'react';
import type { ForeignFileProps } from '../library/book-dialogs.tsx';
import { Dialog } from '../library/dialog.tsx';
import type { Answer, FileSeen, TakeWishes } from './asked.ts';
import { CameOver } from './came-over.tsx';
import { GuessTable } from './guess-table.tsx';
import { OfficeDesk } from './office-desk.ts';
import { NO_SHOP, PartsFound, type ShopTyped, shopOf } from './parts-found.tsx';
import './office.css';

/** What was found in a file of another program, and what its maker says to it, before any of it is taken. */
export default function TakeFile({ session, bookcase, file, onTaken, onClose }: ForeignFileProps) {
  const [desk, setDesk] = useState<OfficeDesk>();
  const [seen, setSeen] = useState<FileSeen>();
  const [refused, setRefused] = useState<string>();
  const [units, setUnits] = useState<'us' | 'metric'>();
  const [share, setShare] = useState(0);
  useEffect(() => {
    const made = new OfficeDesk();
    let here = true;
    void made.keep(file).then((says) => {
      if (!here) return;
      if (says === undefined) setDesk(made);
      else setRefused(says);
    });
    return () => {
      here = false;
      made.close();
    };
  }, [file]);
  useEffect(() => {
    if (desk === undefined) return;
    let here = true;
    const wishes: TakeWishes = { answers: [], ...(units === undefined ? {} : { units }) };
    const asked = desk.ask({ do: 'look', wishes }, (so) => {
      if (here) setShare(so);
    });
    void asked.then((answer) => {
      if (!here) return;
      if (answer.is === 'seen') setSeen(answer.seen);
      else if (answer.is === 'refused') setRefused(answer.says);
    });
    return () => {
      here = false;
    };
  }, [desk, units]);
  return (
    <Dialog title={`Open ${file.name}`} className="take-file" onClose={onClose}>
      {refused === undefined ? null : (
        <>
          <p className="complaint" role="alert">
            {refused}
          </p>
          <p className="quiet">Nothing here was changed.</p>
        </>
      )}
      {refused === undefined && seen === undefined ? (
        <>
          <p className="quiet" role="status">
            Reading {file.name} …
          </p>
          <p className="quiet">{soFar(share)}</p>
        </>
      ) : null}
      {seen === undefined || desk === undefined || refused !== undefined ? null : (
        <Choices
          // What was said of other units is said of other guesses.
          key={seen.units}
          {...{ session, bookcase, file, desk, seen, onTaken, onClose }}
          onUnits={setUnits}
        />
      )}
    </Dialog>
  );
}

/** How far a large file is; a small one is read before anybody could ask. */
const soFar = (share: number): string =>
  share === 0
    ? ''
    : `${Math.floor(share * 100)} % of it is done. Closing this stops it, and nothing is changed.`;

interface ChoicesProps extends ForeignFileProps {
  readonly desk: OfficeDesk;
  readonly seen: FileSeen;
  readonly onUnits: (units: 'us' | 'metric') => void;
}

function Choices(props: ChoicesProps) {
  const { session, bookcase, file, desk, seen, onUnits, onTaken, onClose } = props;
  const { book, mayChange } = session;
  const [title, setTitle] = useState(seen.title);
  const [answers, setAnswers] = useState<readonly Answer[]>(() =>
    seen.guesses.map(() => 'guessed'),
  );
  const [list, setList] = useState<number | undefined>(seen.parts.length > 0 ? 0 : undefined);
  const [shop, setShop] = useState<ShopTyped>(NO_SHOP);
  const [into, setInto] = useState<'new' | 'here'>('new');
  const [says, setSays] = useState<string>();
  const [busy, setBusy] = useState(false);
  const name = useId();
  const chosen = list === undefined ? undefined : seen.parts[list];
  const read = shopOf(shop, seen.units, chosen?.woods ?? []);
  const take = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (busy || (chosen !== undefined && read.wrong)) return;
    setBusy(true);
    setSays(undefined);
    const answer = await desk.ask({
      do: 'take',
      wishes: {
        units: seen.units,
        title: title.trim() === '' ? seen.title : title.trim(),
        answers,
        ...(list === undefined ? {} : { parts: list, shop: read.shop }),
      },
    });
    const done =
      answer.is === 'taken'
        ? await put(answer.text, answer.title)
        : answer.is === 'refused'
          ? answer.says
          : undefined;
    setBusy(false);
    if (done === undefined) onTaken();
    else setSays(done);
  };
  /** Why it was not put there, in a sentence. */
  const put = async (text: string, called: string): Promise<string | undefined> => {
    try {
      if (into === 'new') {
        const origin = { kind: 'file', file: file.name } as const;
        const added = await bookcase.add(text, called, origin, 'anyway');
        return added.ok ? undefined : added.says;
      }
      const before = session.settled().document();
      const offer = await joinOffer(bookcase, { text }, before);
      if (!offer.ok) return offer.says;
      const applied = session.apply(
        { do: 'become', book: offer.document },
        `Sheets added from ${file.name}.`,
      );
      if (!applied.ok) {
        session.hush();
        return applied.says;
      }
      keepJoin(bookcase, called, { before, after: offer.document }).catch((error: unknown) =>
        bookcase.notice(
          `These sheets cannot be exchanged for others later. ${writeTrouble(error)}`,
        ),
      );
      return undefined;
    } catch (error) {
      return writeTrouble(error);
    }
  };
  return (
    <form className="take-choices" onSubmit={(event) => void take(event)}>
      <p role="status">{summary(seen)}</p>
      <div className="take-head">
        <label>
          Workbook name
          <input
            className="field"
            value={title}
            maxLength={200}
            autoComplete="off"
            disabled={into === 'here'}
            onChange={(event) => setTitle(event.target.value)}
          />
        </label>
        <label>
          Units
          <select
            className="field"
            value={seen.units}
            onChange={(event) => onUnits(event.target.value === 'metric' ? 'metric' : 'us')}
          >
            <option value="us">inches and pounds</option>
            <option value="metric">millimeters and kilograms</option>
          </select>
        </label>
      </div>
      {mayChange && !book.locked ? (
        <fieldset className="take-into">
          <legend>It becomes</legend>
          <label>
            <input
              type="radio"
              name={name}
              checked={into === 'new'}
              onChange={() => setInto('new')}
            />{' '}
            a workbook of its own
          </label>
          <label>
            <input
              type="radio"
              name={name}
              checked={into === 'here'}
              onChange={() => setInto('here')}
            />{' '}
            sheets of {book.title}
          </label>
        </fieldset>
      ) : null}
      <PartsFound
        lists={seen.parts}
        chosen={list}
        units={seen.units}
        typed={shop}
        read={read}
        onChoose={setList}
        onType={setShop}
      />
      <GuessTable
        guesses={seen.guesses}
        answers={answers}
        units={seen.units}
        onAnswer={(at, answer) =>
          setAnswers((now) => now.map((one, i) => (i === at ? answer : one)))
        }
      />
      <CameOver told={seen.told} />
      {says === undefined ? null : (
        <p className="complaint" role="alert">
          {says}
        </p>
      )}
      <p className="actions">
        <button
          type="submit"
          className="button button-main"
          disabled={busy || (chosen !== undefined && read.wrong)}
        >
          {into === 'new' ? 'Open as a workbook' : `Add ${sheets(seen.counts.sheets)}`}
        </button>
        <button type="button" className="button" onClick={onClose}>
          Cancel
        </button>
      </p>
    </form>
  );
}

const sheets = (many: number): string => (many === 1 ? 'the sheet' : `${many} sheets`);
const counted = (many: number, one: string): string =>
  `${many.toLocaleString('en-US')} ${one}${many === 1 ? '' : 's'}`;

function summary({ counts }: FileSeen): string {
  const { cells, formulas, asValues } = counts;
  const working = formulas === 0 ? '' : `, ${counted(formulas, 'formula')} that go on working`;
  const still =
    asValues === 0
      ? ''
      : ` ${counted(asValues, 'formula')} ${asValues === 1 ? 'stands' : 'stand'} as the last value.`;
  return `${counted(counts.sheets, 'sheet')}, ${counted(cells, 'cell')}${working}.${still} Nothing is taken before you say so.`;
}
