import type { ReactNode } from 'react';
import {
  type CutBefore as Cut,
  forgotten,
  type Reckoned,
  stillGood,
  trimmed,
  type WrongSize,
} from './reckoned.ts';
import type { Ticks } from './ticks.ts';

interface CutBeforeProps {
  readonly reckoned: Reckoned;
  readonly onKeep: (ticks: Ticks) => void;
}

/** Pieces that are cut and fit the list no more, each with what can be done: nothing ticked off vanishes unsaid. */
export function CutBefore({ reckoned, onKeep }: CutBeforeProps) {
  const { ticks, wrong, gone, over } = reckoned;
  return (
    <>
      <Box says={`${already(sumOf(wrong))} now the wrong size`} all={wrong}>
        {(one) => (
          <>
            <strong>{one.name}</strong>, {cutAt(one)}, now {one.now}
            <span className="bench-answers">
              {one.isShort ? null : (
                <Answer
                  says="Still good"
                  about={one}
                  onPress={() => onKeep(stillGood(ticks, one))}
                />
              )}
              <Answer says="Cut again" about={one} onPress={() => onKeep(forgotten(ticks, one))} />
            </span>
          </>
        )}
      </Box>
      <Box says={`${already(sumOf(gone))} no longer on this list`} all={gone}>
        {(one) => (
          <>
            <strong>{one.name}</strong>, {cutAt(one)}
            <span className="bench-answers">
              <Answer says="Dismiss" about={one} onPress={() => onKeep(forgotten(ticks, one))} />
            </span>
          </>
        )}
      </Box>
      <Box
        says={`${already(over.reduce((sum, { cut, line }) => sum + cut - line.count, 0))} too many`}
        all={over.map((one) => ({ ...one, key: one.line.name, name: one.line.name, size: '' }))}
      >
        {(one) => (
          <>
            <strong>{one.name}</strong>, {one.cut} cut, {one.line.count} needed
            <span className="bench-answers">
              <Answer says="Dismiss" about={one} onPress={() => onKeep(trimmed(ticks, one))} />
            </span>
          </>
        )}
      </Box>
    </>
  );
}

/** `cut at 28 1/4 long`, with how many there are where it is more than one. */
const cutAt = ({ pieces, size }: Pick<Cut, 'pieces' | 'size'>): string =>
  `${pieces.length > 1 ? `${pieces.length} ` : ''}cut at ${size}`;

const sumOf = (all: readonly Pick<Cut, 'pieces'>[]): number =>
  all.reduce((sum, { pieces }) => sum + pieces.length, 0);

const already = (pieces: number): string =>
  pieces === 1 ? '1 piece already cut is' : `${pieces} pieces already cut are`;

interface BoxProps<One> {
  readonly says: string;
  readonly all: readonly One[];
  readonly children: (one: One) => ReactNode;
}

function Box<One extends { readonly key: string }>({ says, all, children }: BoxProps<One>) {
  if (all.length === 0) return null;
  return (
    <div className="shop-left-out bench-before" role="status">
      <p>
        <strong>▲ {says}</strong>
      </p>
      <ul>
        {all.map((one) => (
          <li key={one.key}>{children(one)}</li>
        ))}
      </ul>
    </div>
  );
}

interface AnswerProps {
  readonly says: string;
  readonly about: Pick<Cut, 'name' | 'size'>;
  readonly onPress: () => void;
}

function Answer({ says, about: { name, size }, onPress }: AnswerProps) {
  return (
    <button
      type="button"
      className="button"
      aria-label={`${says}: ${[name, size].filter((one) => one !== '').join(', ')}`}
      onClick={onPress}
    >
      {says}
    </button>
  );
}

/** What is said at a piece that is cut already at another size; nothing at others. */
export function cutAtOther(
  wrong: readonly WrongSize[],
  line: WrongSize['line'],
  piece: number,
): string | undefined {
  const found = wrong.find((one) => one.line === line && one.pieces.includes(piece));
  return found === undefined ? undefined : `Cut at ${found.size}, now ${found.now}`;
}

/** The same of all pieces of a part. */
export const allCutAtOther = (
  wrong: readonly WrongSize[],
  line: WrongSize['line'],
): readonly string[] =>
  wrong.flatMap((one) => (one.line === line ? [`${cutAt(one)}, now ${one.now}`] : []));
