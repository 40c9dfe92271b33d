import { useState } from 'react';
import { Question } from '../../library/book-rows.tsx';
import { Complaint } from '../complaint.tsx';
import { useDoes } from '../use-asked.ts';

interface EndsProps {
  /** What the button says: `Remove`. */
  readonly does: string;
  /** What it is done to, as it is read aloud after that: `the passkey "Shop tablet"`, or `: Ada`. */
  readonly what: string;
  /** What is asked before; left out where nothing is lost. */
  readonly asks?: string;
  readonly work: () => Promise<unknown>;
  readonly onDone: () => void;
}

/** A button that ends, removes or takes back one of a list. */
export function Ends({ does, what, asks, work, onDone }: EndsProps) {
  const [asking, setAsking] = useState(false);
  const { busy, says, run } = useDoes();
  const go = async (): Promise<void> => {
    setAsking(false);
    if (await run(work)) onDone();
  };
  if (asking && asks !== undefined) {
    return (
      <Question says={asks} does={does} onYes={() => void go()} onNo={() => setAsking(false)} />
    );
  }
  return (
    <>
      <p className="actions">
        <button
          type="button"
          className={asks === undefined ? 'button' : 'button button-danger'}
          disabled={busy}
          aria-label={`${does}${what.startsWith(':') ? '' : ' '}${what}`}
          onClick={() => (asks === undefined ? void go() : setAsking(true))}
        >
          {does}
        </button>
      </p>
      <Complaint says={says} />
    </>
  );
}
