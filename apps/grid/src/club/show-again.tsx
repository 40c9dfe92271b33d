import { useState } from 'react';
import { Complaint } from './complaint.tsx';
import { askClub } from './here.ts';
import { useDoes } from './use-asked.ts';

interface ShowAgainProps {
  readonly of: 'template' | 'remark' | 'built';
  readonly id: string;
  /** What it is, as it is read aloud: `the remark by Ada`. */
  readonly what: string;
  /** What stands before the button. */
  readonly says?: string;
  readonly onDone?: () => void;
}

/** Shows again what a keeper hid. */
export function ShowAgain({ of, id, what, says: before, onDone }: ShowAgainProps) {
  const [done, setDone] = useState(false);
  const { busy, says, run } = useDoes();
  const show = async (): Promise<void> => {
    if (!(await run(() => askClub('unhide', { body: { of, id } })))) return;
    setDone(true);
    onDone?.();
  };
  if (done) return <p role="status">Shown again.</p>;
  return (
    <>
      <p className="actions">
        {before === undefined ? null : <span role="status">{before}</span>}
        <button
          type="button"
          className="button"
          disabled={busy}
          aria-label={`Show it again: ${what}`}
          onClick={() => void show()}
        >
          Show it again
        </button>
      </p>
      <Complaint says={says} />
    </>
  );
}
