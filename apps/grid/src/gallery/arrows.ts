import type { KeyboardEvent } from 'react';

/** Arrows go from card to card, where they are not needed for writing: to the button that opens it. */
export function goByArrows(event: KeyboardEvent<HTMLElement>): void {
  const { key, target, currentTarget } = event;
  if (!(target instanceof HTMLButtonElement) || !key.startsWith('Arrow')) return;
  const cards = [...currentTarget.querySelectorAll<HTMLElement>('.book-row')];
  const here = target.closest<HTMLElement>('.book-row');
  if (here === null) return;
  const next = nextCard(cards, here, key);
  if (next === undefined) return;
  event.preventDefault();
  const button = next.querySelector<HTMLElement>('.card-open') ?? next.querySelector('button');
  button?.focus();
  next.scrollIntoView({ block: 'nearest' });
}

function nextCard(
  cards: readonly HTMLElement[],
  here: HTMLElement,
  key: string,
): HTMLElement | undefined {
  const at = cards.indexOf(here);
  if (key === 'ArrowRight') return cards[at + 1];
  if (key === 'ArrowLeft') return cards[at - 1];
  // Up and down: the nearest card of the next line, whatever section it is in.
  const from = here.getBoundingClientRect();
  const down = key === 'ArrowDown';
  const off = (card: HTMLElement): number => {
    const to = card.getBoundingClientRect();
    const lines = down ? to.top - from.bottom : from.top - to.bottom;
    return lines < -1 ? Number.POSITIVE_INFINITY : lines + Math.abs(to.left - from.left) / 10_000;
  };
  const nearest = cards
    .filter((card) => card !== here)
    .reduce<HTMLElement | undefined>(
      (best, card) => (best === undefined || off(card) < off(best) ? card : best),
      undefined,
    );
  return nearest === undefined || off(nearest) === Number.POSITIVE_INFINITY ? undefined : nearest;
}

/** A letter typed anywhere in the list is the first of what is looked for. */
export function typeToFind(event: KeyboardEvent<HTMLElement>): void {
  const { key, ctrlKey, metaKey, altKey, target, currentTarget } = event;
  const writes = target instanceof HTMLElement && target.matches('input, textarea, select');
  if (key.length !== 1 || key === ' ' || ctrlKey || metaKey || altKey || writes) return;
  currentTarget.querySelector<HTMLInputElement>('.gallery-find input')?.focus();
}
