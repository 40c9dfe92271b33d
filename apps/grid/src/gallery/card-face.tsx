import type { BookCard } from '@kerfbook/drawing';
import type { BookHead } from '@kerfbook/keeping';
import { useEffect, useRef, useState } from 'react';
import { useDrawingStyle } from '../pictures/drawing-style.ts';
import { Picture } from '../pictures/picture.tsx';
import type { CardDesk } from './card-desk.ts';
import type { DrawnCard } from './drawn-card.ts';

/** The picture at the head of a card; an empty place where nothing is drawn, or not yet. */
export function CardPicture({
  drawn,
  says,
}: {
  readonly drawn?: DrawnCard;
  readonly says?: string;
}) {
  useDrawingStyle();
  return (
    <div className="card-picture">
      {drawn?.picture === undefined ? (
        <p className="quiet">{says ?? (drawn === undefined ? '' : 'Nothing to draw in it.')}</p>
      ) : (
        <Picture svg={drawn.picture} />
      )}
    </div>
  );
}

/** The picture of a workbook of the maker's own: made once it comes into sight. */
export function OwnPicture({ desk, head }: { readonly desk: CardDesk; readonly head: BookHead }) {
  const place = useRef<HTMLDivElement>(null);
  const [drawn, setDrawn] = useState<DrawnCard>();
  const [says, setSays] = useState<string>();
  useEffect(() => {
    const element = place.current;
    if (element === null) return undefined;
    let gone = false;
    const seen = new IntersectionObserver(
      (entries) => {
        if (!entries.some(({ isIntersecting }) => isIntersecting)) return;
        seen.disconnect();
        setSays(undefined);
        desk.drawn(head).then(
          (card) => {
            if (!gone) setDrawn(card);
          },
          () => {
            if (!gone) setSays('It could not be drawn.');
          },
        );
      },
      { rootMargin: '200px' },
    );
    seen.observe(element);
    return () => {
      gone = true;
      seen.disconnect();
    };
  }, [desk, head]);
  return (
    <div ref={place}>
      <CardPicture
        {...(drawn === undefined ? {} : { drawn })}
        {...(says === undefined ? {} : { says })}
      />
    </div>
  );
}

interface FactsProps {
  readonly card: BookCard | undefined;
  /** They may come late: their room is kept, so that nothing under them moves then. */
  readonly late?: boolean;
}

/** Size, woods and joints of a workbook, and the words it is found by. */
export function CardFacts({ card, late = false }: FactsProps) {
  const facts = (
    [
      ['Size', card?.size],
      ['Wood', card?.woods.join(', ')],
      ['Joinery', card?.joints.join(', ')],
      ['Tags', card?.tags.join(', ')],
    ] as const
  ).filter(([, what]) => what !== undefined && what !== '');
  if (facts.length === 0) return late ? <div className="card-late" /> : null;
  const list = (
    <dl className="card-facts">
      {facts.map(([name, what]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd title={late ? what : undefined}>{what}</dd>
        </div>
      ))}
    </dl>
  );
  return late ? <div className="card-late">{list}</div> : list;
}
