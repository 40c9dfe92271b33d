import type { BookCard } from '@kerfbook/drawing';
import type { BookHead, Listing } from '@kerfbook/keeping';
import { BUILT_IN_CARDS } from './built-in-cards.ts';
import { kindOf } from './kinds.ts';
import { type Findable, found, wishOf } from './search.ts';

/** What of the list is shown, and a sentence about it. */
export interface LookedFor extends Pick<Listing, 'templates' | 'own' | 'trash'> {
  readonly says: string;
}

/** Everything that is found by what was typed; all of it where nothing was. */
export function lookedFor(
  listing: Listing,
  typed: string,
  cardOf: (id: string) => BookCard | undefined,
): LookedFor {
  const { templates, own, trash } = listing;
  if (typed.trim() === '') return { templates, own, trash, says: '' };
  const wish = wishOf(typed);
  const those = <T>(all: readonly T[], findable: (one: T) => Findable): readonly T[] =>
    found(
      all.map((one) => ({ one, ...findable(one) })),
      wish,
    ).map(({ one }) => one);
  const mine = (head: BookHead): Findable => {
    const key = head.origin.kind === 'template' ? head.origin.template : undefined;
    return findable(head.title, cardOf(head.id), key);
  };
  const shown = {
    own: those(own, mine),
    templates: those(templates, ({ key, title, about }) => {
      const plain = findable(title, BUILT_IN_CARDS.get(key)?.card, key);
      return { ...plain, words: [...plain.words, about] };
    }),
    trash: those(trash, mine),
  };
  const many = shown.own.length + shown.templates.length;
  const all = own.length + templates.length;
  const thrown = shown.trash.length;
  const says = sentence({ many, all, thrown }, typed.trim(), wish.sizeSays);
  return { ...shown, says };
}

function findable(title: string, card: BookCard | undefined, key: string | undefined): Findable {
  const kind = key === undefined ? undefined : kindOf(key);
  const words = [
    ...(card === undefined ? [] : [card.about ?? '', ...card.tags, ...card.woods, ...card.joints]),
    ...(kind === undefined ? [] : [kind.says, kind.words]),
  ];
  return { title, words, size: card?.size };
}

interface Counted {
  readonly many: number;
  readonly all: number;
  /** Found in the trash: they count among neither. */
  readonly thrown: number;
}

function sentence({ many, all, thrown }: Counted, typed: string, size: string | undefined): string {
  if (many === 0 && thrown === 0)
    return `No workbook is found by "${typed}". Try fewer words, or another wood or joint.`;
  const trash = thrown === 0 ? '' : `, and ${thrown} in the trash`;
  const nearest =
    size === undefined
      ? ''
      : ` The nearest to ${size} come first; sizes can be changed in all of them.`;
  return `${many} of ${all} workbooks${trash}.${nearest}`;
}
