import { type Bookcase, notDone, writeTrouble } from '@kerfbook/keeping';
import { addLinked } from '@kerfbook/keeping/shelf';
import { type FormEvent, useEffect, useState } from 'react';
import { Dialog } from './dialog.tsx';
import { type LinkRead, readLink } from './link.ts';
import { LookedAt } from './looked-at.tsx';
import './sending.css';

interface OpenLinkProps {
  readonly bookcase: Bookcase;
  /** The link that the page was opened with; without one the maker pastes it. */
  readonly brought: string | undefined;
  /** The workbook is kept and shown. */
  readonly onOpened: () => void;
  readonly onClose: () => void;
}

/** Shows what a link holds before any of it comes to this device. */
export default function OpenLink({ bookcase, brought, onOpened, onClose }: OpenLinkProps) {
  const [read, setRead] = useState<LinkRead>();
  const [pasted, setPasted] = useState('');
  const [says, setSays] = useState<string>();
  const look = (link: string): void => {
    void readLink(link).then(setRead);
  };
  useEffect(() => {
    if (brought !== undefined) void readLink(brought).then(setRead);
  }, [brought]);
  const keep = async (): Promise<void> => {
    if (read?.ok !== true) return;
    const done = await addLinked(bookcase, read.document).catch((error: unknown) =>
      notDone(writeTrouble(error)),
    );
    if (done.ok) onOpened();
    else setSays(done.says);
  };
  if (read?.ok === true) {
    return (
      <Dialog title="A workbook from a link" onClose={onClose}>
        <p className="quiet">
          Nothing of it is on this device yet. Its formulas can only calculate: they reach neither
          your other workbooks nor the network.
        </p>
        <LookedAt document={read.document} />
        {says === undefined ? null : (
          <p className="complaint" role="alert">
            {says}
          </p>
        )}
        <p className="actions">
          <button type="button" className="button button-main" onClick={() => void keep()}>
            Keep it and open it
          </button>
          <button type="button" className="button" onClick={onClose}>
            Do not keep it
          </button>
        </p>
      </Dialog>
    );
  }
  if (brought !== undefined && read === undefined) return null;
  return (
    <Dialog title="Open a link" onClose={onClose}>
      {read === undefined ? null : (
        <p className="complaint" role="alert">
          {read.says} Nothing here was changed.
        </p>
      )}
      <form
        onSubmit={(event: FormEvent) => {
          event.preventDefault();
          look(pasted);
        }}
      >
        <label className="link-paste">
          Paste the link
          <textarea
            className="field link-field"
            rows={4}
            value={pasted}
            onChange={(event) => setPasted(event.target.value)}
          />
        </label>
        <p className="actions">
          <button type="submit" className="button button-main">
            Look at it
          </button>
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
        </p>
      </form>
    </Dialog>
  );
}
