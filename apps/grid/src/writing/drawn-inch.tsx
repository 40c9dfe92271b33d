import { EIGHTHS, SIXTEENTHS } from './pad-keys.ts';

interface DrawnInchProps {
  /** True: its sixteenths can be pressed; else halves, quarters and eighths. */
  readonly fine: boolean;
  readonly onTake: (fraction: string) => void;
}

/** Height of a mark of a rule by what it counts, shares of the highest. */
const HIGH: Readonly<Record<number, number>> = { 1: 1, 2: 0.82, 4: 0.62, 8: 0.44, 16: 0.26 };

/** All marks of an inch, sixteenth by sixteenth, by the fraction in its lowest terms. */
const MARKS = Array.from({ length: 17 }, (_, i) => ({ at: i / 16, under: lowest(i) }));

function lowest(sixteenths: number): number {
  let under = 16;
  for (let over = sixteenths; under > 1 && over % 2 === 0; over /= 2) under /= 2;
  return under;
}

/** Where a fraction stands in the inch, from 0 to 1. */
const placeOf = (fraction: string): number => {
  const [over = 0, under = 1] = fraction.split('/').map(Number);
  return over / under;
};

/**
 * An inch of a rule, drawn large: each mark that can be pressed has an eighth of its length, half of it on either
 * side, so that a finger finds a fraction where the eye reads it.
 */
export function DrawnInch({ fine, onTake }: DrawnInchProps) {
  return (
    <div className="pad-inch">
      <svg viewBox="0 0 1 1" preserveAspectRatio="none" aria-hidden="true">
        {MARKS.map(({ at, under }) => (
          <path
            key={at}
            className={under === 16 && !fine ? 'pad-mark pad-mark-fine' : 'pad-mark'}
            d={`M${at} 0V${HIGH[under] ?? 1}`}
          />
        ))}
      </svg>
      {(fine ? SIXTEENTHS : EIGHTHS).map((one) => (
        <button
          key={one}
          type="button"
          aria-label={one}
          data-under={one.split('/')[1]}
          style={{ insetInlineStart: `${(placeOf(one) - 1 / 16) * 100}%` }}
          // The field keeps the focus, and its caret.
          onPointerDown={(event) => event.preventDefault()}
          onMouseDown={(event) => event.preventDefault()}
          onClick={() => onTake(one)}
        >
          {one}
        </button>
      ))}
    </div>
  );
}
