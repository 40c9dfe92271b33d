import type { Choices, Weighed, Which } from '@kerfbook/workbook';
import { useCallback, useId, useMemo, useState } from 'react';
import { useWeighings, type Weigher, type Weighings } from './weighing.ts';

/** So many places are on the page at first, each weighed. */
const PLACES = 12;

/** What is chosen about: it says what choices do, and what stands without them. */
interface Offer<T> extends Weigher<T> {
  now(): Weighed;
}

/** Choosing between both sides, place by place, with what each choice does. */
export interface Choosing {
  readonly choices: Choices;
  readonly choose: (keys: readonly string[], which: Which) => void;
  /** So many places are on the page. */
  readonly many: number;
  /** Puts all of them there. */
  readonly showAll: () => void;
  readonly weighings: Weighings;
  /** The workbook as it is. */
  readonly now: Weighed;
}

/** @param first what is chosen everywhere at first; nothing where it is left out */
export function useChoosing<T extends { readonly key: string }>(
  offer: Offer<T>,
  places: readonly T[],
  first?: Which,
): Choosing {
  const [choices, setChoices] = useState<Choices>(
    () => new Map(first === undefined ? [] : places.map(({ key }) => [key, first] as const)),
  );
  const [many, setMany] = useState(PLACES);
  const inSight = useMemo(() => places.slice(0, many), [places, many]);
  const weighings = useWeighings(offer, choices, inSight);
  const now = useMemo(() => offer.now(), [offer]);
  const choose = useCallback((keys: readonly string[], which: Which) => {
    setChoices((before) => new Map([...before, ...keys.map((key) => [key, which] as const)]));
  }, []);
  const showAll = useCallback(() => setMany(places.length), [places]);
  return { choices, choose, many, showAll, weighings, now };
}

/** What is told of a workbook that was put together, beside the places that were chosen about. */
export function Afterwards({ told }: { readonly told: readonly string[] }) {
  const head = useId();
  const each = [...new Set(told)];
  if (each.length === 0) return null;
  return (
    <section className="renewal-part" aria-labelledby={head}>
      <h3 id={head}>Look at these afterwards</h3>
      <ul>
        {each.map((one) => (
          <li key={one}>{one}</li>
        ))}
      </ul>
    </section>
  );
}
