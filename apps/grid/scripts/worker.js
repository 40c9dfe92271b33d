// Keeps the app on the device, so that it starts and works without a network. VERSION and FILES are
// put in when the app is built; a new build is a new version and waits until the maker takes it.
const VERSION = '';
const FILES = [];

const KEPT = `kerfbook ${VERSION}`;

// Addresses on one's own machine are lent to one program after another. Only where this file is
// answered as the build wrote it does the app answer.
const SIGN = 'kerfbook.json';
// A program that takes longer to say who it is counts as none, in ms.
const PATIENCE = 4000;

// Pages of another program that came through here before this worker went.
const foreign = new Set();

self.addEventListener('install', (event) => {
  event.waitUntil(keep());
});

async function keep() {
  const cache = await caches.open(KEPT);
  try {
    await cache.addAll(FILES);
    const sign = await cache.match(SIGN);
    if ((await sign.json()).build === VERSION) return;
    throw new Error('What answers is not the build that this worker belongs to.');
  } catch (error) {
    await caches.delete(KEPT);
    throw error;
  }
}

self.addEventListener('activate', (event) => {
  event.waitUntil(forget((name) => name !== KEPT).then(() => self.clients.claim()));
});

async function forget(which) {
  const names = await caches.keys();
  const ours = names.filter((name) => name.startsWith('kerfbook ') && which(name));
  await Promise.all(ours.map((name) => caches.delete(name)));
}

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request, clientId } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== self.location.origin) return;
  // What a club answers is of this moment and of whoever asks: it is asked itself, and nothing of it is kept here.
  if (pathname.startsWith('/club/')) return;
  if (request.mode === 'navigate') event.respondWith(page(event));
  else if (!foreign.has(clientId)) {
    event.respondWith(kept(request).then((one) => one ?? fetch(request)));
  }
});

// Not `caches.open`, which would make an empty one where all were given up.
const kept = (wanted) =>
  caches.match(wanted, { cacheName: KEPT, ignoreSearch: wanted.mode === 'navigate' });

async function page(event) {
  const { request } = event;
  const who = await whoAnswers();
  if (who === 'another' || who === 'unclear') {
    foreign.add(event.resultingClientId);
    if (who === 'another') event.waitUntil(giveUp());
    return fetch(request);
  }
  return (await kept(request)) ?? (await kept('./')) ?? fetch(request);
}

/**
 * Who answers at this address: nobody, the app, or another program. A server in trouble is not taken
 * for another program for good, yet neither hidden behind the app.
 */
async function whoAnswers() {
  let text = '';
  try {
    const answer = await fetch(SIGN, {
      cache: 'no-store',
      credentials: 'omit',
      redirect: 'manual',
      signal: AbortSignal.timeout(PATIENCE),
    });
    if (answer.status >= 500) return 'unclear';
    text = await answer.text();
  } catch {
    return 'nobody';
  }
  try {
    return JSON.parse(text).app === 'kerfbook' ? 'the app' : 'another';
  } catch {
    return 'another';
  }
}

/** Leaves the address to whom it belongs now. The maker's workbooks are kept elsewhere and stay. */
async function giveUp() {
  await self.registration.unregister();
  // The page that was left for the other one is still there for a moment. Pages of the app that stay
  // open go on with what is kept for them.
  for (let tries = 0; tries < 20; tries += 1) {
    const pages = await self.clients.matchAll({ type: 'window' });
    if (pages.every(({ id }) => foreign.has(id))) return forget(() => true);
    await new Promise((resolve) => setTimeout(resolve, 250));
  }
}
