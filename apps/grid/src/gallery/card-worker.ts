import { bookCard } from '@kerfbook/drawing';
import { loadLazy, loadText, Workbook } from '@kerfbook/workbook';
import type { DrawnCard } from './drawn-card.ts';

/** What it answers: the card, or why there is none. */
export type CardTold = DrawnCard | { readonly failed: string };

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
  return loaded.ok ? bookCard(Workbook.open(loaded.document)) : { failed: loaded.says };
}
