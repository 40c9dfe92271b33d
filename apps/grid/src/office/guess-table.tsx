import { ownUnit, UNITS_OFFERED } from '@kerfbook/interchange';
import type { Answer, GuessSeen } from './asked.ts';

interface GuessTableProps {
  readonly guesses: readonly GuessSeen[];
  readonly answers: readonly Answer[];
  readonly units: 'us' | 'metric';
  readonly onAnswer: (at: number, answer: Answer) => void;
}

/** Guesses that are drawn, at the most; others are taken as they are. */
const MOST_DRAWN = 100;

/** What the numbers of each column look like, and what they are instead where that is wrong. */
export function GuessTable({ guesses, answers, units, onAnswer }: GuessTableProps) {
  if (guesses.length === 0) return null;
  const drawn = guesses.slice(0, MOST_DRAWN);
  return (
    <section className="take-guesses">
      <h3>What its numbers look like</h3>
      <ul>
        {drawn.map((guess, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: guesses of one reading never change places
          <li key={at}>
            <label>
              <span>
                {guess.sheetName}, {guess.column}
                <span className="quiet">
                  {' '}
                  {guess.count === 1 ? '1 cell' : `${guess.count.toLocaleString('en-US')} cells`}:{' '}
                  {guess.why}
                </span>
              </span>
              <select
                className="field"
                value={String(answers[at] ?? 'guessed')}
                onChange={({ target: { value } }) =>
                  onAnswer(at, value === 'guessed' || value === 'bare' ? value : Number(value))
                }
              >
                <option value="guessed">{guess.plural}</option>
                <option value="bare">plain numbers</option>
                {UNITS_OFFERED.map((unit, index) =>
                  isOffered(unit, guess, units) ? (
                    <option key={unit.plural} value={index}>
                      {unit.plural}
                    </option>
                  ) : null,
                )}
              </select>
            </label>
            {becomes(guess, answers[at] ?? 'guessed', units)}
          </li>
        ))}
      </ul>
      {guesses.length > drawn.length ? (
        <p className="quiet">And {guesses.length - drawn.length} more, taken as they look.</p>
      ) : null}
    </section>
  );
}

type Unit = (typeof UNITS_OFFERED)[number];

/** A unit other than the workbook's own is offered where numbers may be turned. */
const isOffered = (unit: Unit, guess: GuessSeen, units: 'us' | 'metric'): boolean =>
  unit.plural !== guess.plural && (guess.turns || ownUnit(unit.quantity, units) === unit.unit);

function becomes(guess: GuessSeen, answer: Answer, units: 'us' | 'metric') {
  const is = answer === 'guessed' ? guess : answer === 'bare' ? undefined : UNITS_OFFERED[answer];
  if (is === undefined) return null;
  const own = ownUnit(is.quantity, units);
  if (own === is.unit) return null;
  return (
    <p className="quiet">
      {guess.turns
        ? `They are turned into ${own}.`
        : 'They stay plain numbers, since formulas rest on them.'}
    </p>
  );
}
