import { Bookcase, type TemplateHead, type TemplateState, templatesOf } from '@kerfbook/keeping';
import { DeviceStore } from './device-store.ts';
import REVISIONS from './template-revisions.json';

// Their texts are data, read where a working copy is made, and no part of the script.
const ADDRESSES = import.meta.glob<string>('../../../../templates/*.json', {
  query: '?url',
  import: 'default',
  eager: true,
});
const TITLES = import.meta.glob<string>('../../../../templates/*.json', {
  import: 'title',
  eager: true,
});
const ABOUTS = import.meta.glob<string>('../../../../templates/*.json', {
  import: 'about',
  eager: true,
});

const HEADS: Readonly<Record<string, TemplateHead>> = Object.fromEntries(
  Object.entries(ADDRESSES).map(([path, address]) => [
    path,
    { title: TITLES[path] ?? '', about: ABOUTS[path] ?? '', ...stateOf(path), address },
  ]),
);

/** Written by `tests/scripts/template-revisions.mjs`. */
function stateOf(path: string): Pick<TemplateHead, 'state'> {
  const key = path.slice(path.lastIndexOf('/') + 1).replace(/\.json$/, '');
  const state = (REVISIONS as Readonly<Record<string, TemplateState>>)[key];
  return state === undefined ? {} : { state };
}

/** What a maker sees who comes here for the first time. */
const OPENS_FIRST = 'dining-table';

async function readText(address: string): Promise<string> {
  const answer = await fetch(address);
  if (!answer.ok) throw new Error(`The template did not load (${answer.status}).`);
  return answer.text();
}

/**
 * What a browser has only for a page over https or from this machine; where site data is blocked, asking
 * for it may throw.
 */
function offered<T>(ask: () => T): T | undefined {
  try {
    return ask() ?? undefined;
  } catch {
    return undefined;
  }
}

/** Opens the bookcase of this browser, and keeps it safe while the page comes and goes. */
export async function startBookcase(): Promise<Bookcase> {
  const bookcase = await Bookcase.start({
    templates: templatesOf(HEADS, OPENS_FIRST, readText),
    openStore: () => DeviceStore.open(),
    locks: offered(() => navigator.locks),
    storage: offered(() => navigator.storage),
  });
  watchPage(bookcase);
  return bookcase;
}

/** A hidden page may be thrown away unasked: fold then. A page being closed asks only if it must. */
function watchPage(bookcase: Bookcase): void {
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') void bookcase.fold();
  });
  window.addEventListener('pagehide', () => void bookcase.fold());
  window.addEventListener('beforeunload', (event) => {
    if (bookcase.unsafe) event.preventDefault();
  });
}
