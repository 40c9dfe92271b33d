import { bookCard } from '@kerfbook/drawing';
import { loadLazy, loadText, Workbook } from '@kerfbook/workbook';
import { cardPrice } from './card-price.ts';
import type { OwnDrawnCard } from './drawn-card.ts';

/** What it answers: the card, or why there is none. */
export type CardTold = OwnDrawnCard | { readonly failed: string };

const port = globalThis as unknown as {
  onmessage: ((event: { readonly data: string }) => void) | null;
  postMessage(told: CardTold): void;
};

/** It is sent the saved text of a workbook. */
port.onmessage = ({ data }) => {
  cardOf(data).then(
    (card) => port.postMessage(card),
    (error: unknown) => port.postMessage({ failed: String(error) }),
  );
};

async function cardOf(text: string): Promise<CardTold> {
  await loadLazy();
  const loaded = loadText(text);
  if (!loaded.ok) return { failed: loaded.says };
  const book = Workbook.open(loaded.document);
  const drawn = bookCard(book);
  return { ...drawn, card: { ...drawn.card, price: cardPrice(book) } };
}
