import type { BookStore } from './book-store.ts';
import type { Values } from './records.ts';

/**
 * What a workbook says of itself in short is worked out once and kept beside it, with the moment of the change
 * that it holds for: another moment asks for it anew. What it says is the page's own matter.
 */

/** Kept beside a workbook, with the moment of its last change. */
export interface KeptCard {
  /** Of which making: another app words it otherwise. */
  readonly made: number;
  /** The last change that it holds for, ms since 1970. */
  readonly updated: number;
  /** As the page made it. */
  readonly card: unknown;
  /** A picture is kept with it, under a key of its own: a list reads pictures one by one. */
  readonly hasPicture: boolean;
}

const CARD = 'card:';
const cardKey = (id: string): string => CARD + id;
const pictureKey = (id: string): string => `picture:${id}`;

/** Gone with the workbook. */
export const keysOfCard = (id: string): readonly string[] => [cardKey(id), pictureKey(id)];

/** All cards that are kept, by the ids of their workbooks. */
export async function keptCards(store: BookStore): Promise<ReadonlyMap<string, KeptCard>> {
  const kept = await store.values(CARD);
  return new Map(
    [...kept].flatMap(([key, value]) =>
      isCard(value) ? [[key.slice(CARD.length), value] as const] : [],
    ),
  );
}

/** The picture of a workbook; nothing where none is kept. */
export async function keptPicture(store: BookStore, id: string): Promise<string | undefined> {
  const kept = await store.get(pictureKey(id));
  return typeof kept === 'string' ? kept : undefined;
}

/** Keeps a card; where there is a picture with it, that too, in the place of what was kept before. */
export function keepCard(
  store: BookStore,
  id: string,
  card: KeptCard,
  picture: string | undefined,
): Promise<void> {
  const values: Values = new Map<string, unknown>([
    [cardKey(id), card],
    [pictureKey(id), picture],
  ]);
  return store.setAll(values);
}

function isCard(value: unknown): value is KeptCard {
  if (value === null || typeof value !== 'object') return false;
  const { made, updated, card } = value as { readonly [K in keyof KeptCard]?: unknown };
  return typeof made === 'number' && typeof updated === 'number' && typeof card === 'object';
}
