import { type FormEvent, useState } from 'react';
import { Dialog } from '../library/dialog.tsx';
import { Complaint } from './complaint.tsx';
import { askClub } from './here.ts';
import { useDoes } from './use-asked.ts';

interface ReportProps {
  readonly of: 'template' | 'remark' | 'built';
  readonly id: string;
  /** What is reported, in words: `the remark by Ada`. */
  readonly what: string;
}

/** Reports something to the keepers of the shelf, with a reason. */
export function Report({ of, id, what }: ReportProps) {
  const [asking, setAsking] = useState(false);
  const [done, setDone] = useState(false);
  if (done) {
    return (
      <span className="quiet" role="status">
        Reported to the keepers of the shelf.
      </span>
    );
  }
  return (
    <>
      <button
        type="button"
        className="button"
        aria-label={`Report ${what}`}
        onClick={() => setAsking(true)}
      >
        Report
      </button>
      {asking ? (
        <Why
          of={of}
          id={id}
          what={what}
          onDone={() => {
            setAsking(false);
            setDone(true);
          }}
          onClose={() => setAsking(false)}
        />
      ) : null}
    </>
  );
}

interface WhyProps extends ReportProps {
  readonly onDone: () => void;
  readonly onClose: () => void;
}

function Why({ of, id, what, onDone, onClose }: WhyProps) {
  const [why, setWhy] = useState('');
  const { busy, says, run } = useDoes();
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (await run(() => askClub('report', { body: { of, id, why: why.trim() } }))) onDone();
  };
  return (
    <Dialog title={`Report ${what}`} onClose={onClose}>
      <p>The keepers of the shelf read it, and decide whether it is hidden.</p>
      <form className="shelf-form" onSubmit={(event) => void submit(event)}>
        <label>
          What is wrong with it
          <textarea
            className="field"
            rows={3}
            required
            maxLength={500}
            value={why}
            onChange={(event) => setWhy(event.target.value)}
          />
        </label>
        <Complaint says={says} />
        <p className="actions">
          <button type="submit" className="button button-main" disabled={busy || why.trim() === ''}>
            Report
          </button>
          <button type="button" className="button" onClick={onClose}>
            Cancel
          </button>
        </p>
      </form>
    </Dialog>
  );
}
