import type { AnswerOf } from '@kerfbook/protocol';
import { type FormEvent, useCallback, useId, useState } from 'react';
import { momentOf } from '../library/moments.ts';
import { Complaint, OnItsWay } from './complaint.tsx';
import { askClub, type Me } from './here.ts';
import { Report } from './report.tsx';
import { ShowAgain } from './show-again.tsx';
import { useDoes } from './use-asked.ts';
import { usePages } from './use-pages.ts';

type Remark = AnswerOf<'remarks'>['remarks'][number];

interface RemarksProps {
  readonly id: string;
  readonly me: Me;
  /** Whoever looks made the template. */
  readonly mine: boolean;
}

/** What members say of a template. */
export function Remarks({ id, me, mine }: RemarksProps) {
  const [text, setText] = useState('');
  const field = useId();
  const pages = usePages(
    useCallback(
      async (after, signal) => {
        const query = after === undefined ? {} : { after };
        const { remarks, next } = await askClub(
          'remarks',
          { params: { template: id }, query },
          signal,
        );
        return { some: remarks, next };
      },
      [id],
    ),
  );
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const body = { text: text.trim() };
    if (body.text === '') return;
    if (!(await run(() => askClub('remark', { params: { template: id }, body })))) return;
    setText('');
    pages.again();
  };
  return (
    <section className="shelf-part" aria-label="Remarks">
      <h3>Remarks</h3>
      {pages.some === undefined ? (
        <OnItsWay says={pages.says} what="Reading the remarks …" again={pages.again} />
      ) : (
        <>
          {pages.some.length === 0 ? <p className="quiet">Nobody has remarked on it yet.</p> : null}
          <ul className="shelf-list">
            {pages.some.map((one) => (
              <OneRemark
                key={one.id}
                one={one}
                mayRemove={one.by.id === me.id || mine || me.role === 'keeper'}
                mayShow={me.role === 'keeper'}
                isMine={one.by.id === me.id}
                onGone={pages.again}
              />
            ))}
          </ul>
          {pages.more === undefined ? null : (
            <p className="actions">
              <button type="button" className="button" onClick={pages.more}>
                Show more remarks
              </button>
            </p>
          )}
          <Complaint says={pages.says} />
        </>
      )}
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
        <label htmlFor={field}>Your remark</label>
        <textarea
          id={field}
          className="field"
          rows={3}
          maxLength={2000}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
        <Complaint says={says} />
        <p className="actions">
          <button type="submit" className="button" disabled={busy || text.trim() === ''}>
            Add the remark
          </button>
        </p>
      </form>
    </section>
  );
}

interface OneRemarkProps {
  readonly one: Remark;
  readonly mayRemove: boolean;
  /** Whoever looks can show again what was hidden. */
  readonly mayShow: boolean;
  readonly isMine: boolean;
  readonly onGone: () => void;
}

function OneRemark({ one, mayRemove, mayShow, isMine, onGone }: OneRemarkProps) {
  const { id, by, text, made, hidden } = one;
  const { busy, says, run } = useDoes();
  const remove = async (): Promise<void> => {
    if (await run(() => askClub('removeRemark', { params: { remark: id } }))) onGone();
  };
  return (
    <li>
      <p className="quiet">
        {by.name}, {momentOf(made)}
        {hidden === true ? ', hidden by a keeper of the shelf' : ''}
      </p>
      <p className="shelf-words">{text}</p>
      <p className="actions">
        {mayRemove ? (
          <button
            type="button"
            className="button"
            disabled={busy}
            aria-label={`Remove the remark by ${by.name}`}
            onClick={() => void remove()}
          >
            Remove
          </button>
        ) : null}
        {isMine ? null : <Report of="remark" id={id} what={`the remark by ${by.name}`} />}
      </p>
      {mayShow && hidden === true ? (
        <ShowAgain of="remark" id={id} what={`the remark by ${by.name}`} onDone={onGone} />
      ) : null}
      <Complaint says={says} />
    </li>
  );
}
