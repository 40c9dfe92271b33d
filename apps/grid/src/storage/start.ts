import { Bookcase } from './bookcase.ts';
import { DeviceStore } from './device-store.ts';
import { readTemplates } from './templates.ts';

const SHIPPED = import.meta.glob<string>('../../../../templates/*.json', {
  query: '?raw',
  import: 'default',
  eager: true,
});

/** Opens the bookcase of this browser, and keeps it safe while the page comes and goes. */
export async function startBookcase(): Promise<Bookcase> {
  const bookcase = await Bookcase.start({
    templates: readTemplates(SHIPPED),
    openStore: () => DeviceStore.open(),
    // Both are missing on a page that came neither over https nor from this machine.
    locks: 'locks' in navigator ? navigator.locks : undefined,
    storage: 'storage' in navigator ? navigator.storage : undefined,
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
