import { Watched } from '@kerfbook/keeping';

/** Whether a newer version of the app lies ready on this device. */
export const newVersion = new Watched(false);

/** The app is used before it is kept: its first seconds belong to the maker. */
const AFTER = 4000;

let waiting: ServiceWorker | null = null;

/** Keeps the app on the device once it has started; where a browser will not, it works as before. */
export function keepForOffline(): void {
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return;
  setTimeout(() => {
    try {
      navigator.serviceWorker.register('worker.js').then(follow, () => undefined);
    } catch {
      // Where site data is blocked, even asking for it throws.
    }
  }, AFTER);
}

function follow(registration: ServiceWorkerRegistration): void {
  const look = (): void => {
    // The first one ever to be kept is no newer version.
    if (registration.waiting === null || navigator.serviceWorker.controller === null) return;
    waiting = registration.waiting;
    newVersion.set(true);
  };
  look();
  registration.addEventListener('updatefound', () => {
    registration.installing?.addEventListener('statechange', look);
  });
}

/** Goes over to the newer version; everything is saved before a page goes. */
export function takeNewVersion(): void {
  navigator.serviceWorker.addEventListener('controllerchange', () => window.location.reload());
  waiting?.postMessage('take over');
}
