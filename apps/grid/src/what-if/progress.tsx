import type { Run } from './use-run.ts';

interface ProgressProps {
  readonly run: Run<unknown>;
  /** Sets there are, where that is known. */
  readonly of: number | undefined;
}

/** How far a study is, with a way to stop it; or why it came to nothing. */
export function Progress({ run: { done, stop, failed }, of }: ProgressProps) {
  if (failed !== undefined) {
    return (
      <p role="alert" className="whatif-says">
        {failed}
      </p>
    );
  }
  if (done === undefined) return null;
  return (
    <p className="whatif-progress" role="status">
      Worked out: {done.toLocaleString('en-US')}
      {of === undefined ? '' : ` of ${of.toLocaleString('en-US')}`}{' '}
      <button type="button" className="button" onClick={stop}>
        Stop
      </button>
    </p>
  );
}
