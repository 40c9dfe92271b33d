import type { CheckState } from '@kerfbook/workbook';
import { STATE_WORDS } from '../did/state-words.ts';

export { STATE_WORDS };

type State = CheckState['state'];

/** One check in a state, and several. */
const COUNTED: Readonly<Record<State, readonly [one: string, many: string]>> = {
  stop: ['problem', 'problems'],
  care: ['warning', 'warnings'],
  unknown: ["can't tell", "can't tell"],
  pass: ['OK', 'OK'],
};

const ORDER: readonly State[] = ['stop', 'unknown', 'care', 'pass'];

/** The worst of some states first in line; undefined for none. */
export function worstState(states: readonly State[]): State | undefined {
  return ORDER.find((state) => states.includes(state));
}

/** Worst first; checks of one state stay in the order of the workbook. */
export function worstFirst(checks: readonly CheckState[]): readonly CheckState[] {
  return ORDER.flatMap((state) => checks.filter((check) => check.state === state));
}

/** `1 problem, 2 warnings, 7 OK`. */
export function checksSummary(checks: readonly CheckState[]): string {
  const counts = (['stop', 'unknown', 'care', 'pass'] as const)
    .map((state) => ({ state, count: checks.filter((check) => check.state === state).length }))
    .filter(({ count }) => count > 0);
  return counts
    .map(({ state, count }) => `${count} ${COUNTED[state][count === 1 ? 0 : 1]}`)
    .join(', ');
}

/** An octagon, a triangle, a tick, or a broken ring; with a `label`, read out as that. */
export function StateIcon({ state, label }: { readonly state: State; readonly label?: string }) {
  return (
    <>
      <svg
        className={`state-icon state-${state}`}
        viewBox="0 0 16 16"
        width="16"
        height="16"
        aria-hidden="true"
      >
        <Shape state={state} />
      </svg>
      {label === undefined ? null : <span className="visually-hidden">{label}</span>}
    </>
  );
}

function Shape({ state }: { readonly state: State }) {
  switch (state) {
    case 'stop':
      return (
        <>
          <path className="icon-solid" d="M5 1h6l4 4v6l-4 4H5l-4-4V5z" />
          <path className="icon-hole" d="M8 4.2v4.6M8 10.9v1" />
        </>
      );
    case 'care':
      return (
        <>
          <path className="icon-line" d="M8 1.8 15 14.2H1z" />
          <path className="icon-line" d="M8 6.2v3.6M8 11.6v.6" />
        </>
      );
    case 'unknown':
      return <circle className="icon-line" cx="8" cy="8" r="6" strokeDasharray="2.6 2" />;
    case 'pass':
      return <path className="icon-line" d="m2.5 8.6 3.6 3.7L13.5 4" />;
  }
}
