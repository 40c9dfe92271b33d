import type { Bookcase } from '@kerfbook/keeping';
import type { BookDocument } from '@kerfbook/workbook';
import { useEffect, useRef, useState } from 'react';
import type { Session } from '../session/session.ts';
import { Dialog } from './dialog.tsx';
import { keepCopyLate } from './late-actions.ts';
import { type LinkMade, linkOf } from './link.ts';
import './sending.css';

interface SendLinkProps {
  readonly session: Session;
  readonly bookcase: Bookcase;
  readonly onClose: () => void;
}

/** The workbook as a link that holds all of it. */
export default function SendLink({ session, bookcase, onClose }: SendLinkProps) {
  const [document] = useState(() => {
    session.settled();
    return session.book.document();
  });
  const [withJob, setWithJob] = useState(false);
  const [made, setMade] = useState<LinkMade>();
  const [copied, setCopied] = useState<string>();
  const field = useRef<HTMLTextAreaElement>(null);
  useEffect(() => {
    let asked = true;
    setCopied(undefined);
    void linkOf(withJob ? document : withoutJob(document), here()).then((link) => {
      if (asked) setMade(link);
    });
    return () => {
      asked = false;
    };
  }, [document, withJob]);
  const copy = (link: string): void => {
    const copying = navigator.clipboard?.writeText(link) ?? Promise.reject(new Error('none'));
    copying.then(
      () => setCopied('Copied.'),
      () => {
        field.current?.select();
        setCopied(
          'This browser does not let the page copy. The link is selected: copy it yourself.',
        );
      },
    );
  };
  return (
    <Dialog title="Send as a link" onClose={onClose}>
      <p>
        The link holds the whole workbook, prices too. Whoever has a Kerfbook opens the link, or
        pastes it there under "Open a link". Nothing is kept on a server.
      </p>
      {namesJob(document) ? (
        <label className="link-choice">
          <input
            type="checkbox"
            checked={withJob}
            onChange={(event) => setWithJob(event.target.checked)}
          />
          Send customer, job number, due date and revision along
        </label>
      ) : null}
      {made === undefined ? <p className="quiet">Making the link …</p> : null}
      {made?.ok === true ? (
        <>
          <textarea
            ref={field}
            className="field link-field"
            aria-label="Link"
            readOnly
            rows={4}
            value={made.link}
            onFocus={(event) => event.currentTarget.select()}
          />
          <p className="quiet">
            {made.link.length.toLocaleString('en-US')} letters. A mail takes it whole; some chat
            programs cut long links: send a file there.
          </p>
        </>
      ) : null}
      {made?.ok === false ? (
        <p className="complaint" role="alert">
          {made.says}
        </p>
      ) : null}
      <p className="actions">
        {made?.ok === true ? (
          <button type="button" className="button button-main" onClick={() => copy(made.link)}>
            Copy the link
          </button>
        ) : null}
        <button
          type="button"
          className={made?.ok === false ? 'button button-main' : 'button'}
          onClick={() => keepCopyLate(bookcase, bookcase.current.id)}
        >
          Save a copy as a file
        </button>
      </p>
      <p role="status">{copied}</p>
    </Dialog>
  );
}

/** Where this app stands: a link is opened there by whoever can reach it. */
const here = (): string => location.origin + location.pathname;

const namesJob = ({ customer, job, due, revision }: BookDocument): boolean =>
  [customer, job, due, revision].some((one) => one !== undefined);

function withoutJob(document: BookDocument): BookDocument {
  const { customer: _whom, job: _number, due: _day, revision: _state, ...rest } = document;
  return rest;
}
