import type { Page } from 'playwright-core';

/** A workbook as the app keeps it in the browser's IndexedDB. */
export interface KeptRecord {
  readonly id: string;
  readonly title: string;
  readonly text: string;
  readonly revision: number;
}

/** Every record of workbooks the page's browser keeps, as it lies there. */
export function keptRecords(page: Page): Promise<readonly KeptRecord[]> {
  return page.evaluate(
    () =>
      new Promise<KeptRecord[]>((resolve, reject) => {
        const opening = indexedDB.open('kerfbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('books').objectStore('books').getAll();
          all.onerror = () => reject(all.error);
          all.onsuccess = () => {
            opening.result.close();
            resolve(all.result);
          };
        };
      }),
  );
}

/** Writes a value over what the browser keeps, past the app. */
export function overwrite(page: Page, table: 'books' | 'log' | 'kv', value: unknown, key?: string) {
  return page.evaluate(
    (given) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('kerfbook');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const work = opening.result.transaction(given.table, 'readwrite');
          work.objectStore(given.table).put(given.value, given.key);
          work.onerror = () => reject(work.error);
          work.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    { table, value, key },
  );
}

/**
 * For a page before it loads: a browser that blocks site data for it, as the standards have it. Every
 * way to keep something throws where it is asked for, or refuses.
 */
export const BLOCK_SITE_DATA = `(() => {
  const denied = () => new DOMException('Access is denied for this document.', 'SecurityError');
  const refuse = (of, name) =>
    Object.defineProperty(of, name, {
      configurable: true,
      get() {
        throw denied();
      },
    });
  for (const name of ['indexedDB', 'localStorage', 'sessionStorage', 'caches']) refuse(window, name);
  refuse(Navigator.prototype, 'serviceWorker');
  Object.defineProperty(Document.prototype, 'cookie', {
    get() {
      throw denied();
    },
    set() {
      throw denied();
    },
  });
  LockManager.prototype.request = () => Promise.reject(denied());
  for (const name of ['persist', 'persisted', 'estimate', 'getDirectory']) {
    StorageManager.prototype[name] = () => Promise.reject(denied());
  }
})()`;

/** Makes the device of a page full from now on, or not any more: writes fail as a browser fails them. */
export function fillDevice(page: Page, isFull: boolean): Promise<void> {
  return page.evaluate((now) => {
    if (!Reflect.has(window, 'deviceIsFull')) {
      const real = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function put(...given) {
        if (Reflect.get(window, 'deviceIsFull') === true) {
          throw new DOMException('no room', 'QuotaExceededError');
        }
        return real.apply(this, given);
      };
    }
    Reflect.set(window, 'deviceIsFull', now);
  }, isFull);
}
