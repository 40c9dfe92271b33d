// Keeps the app on the device, so that it starts and works without a network. VERSION and FILES are
// put in when the app is built; a new build is a new version and waits until the maker takes it.
const VERSION = '';
const FILES = [];

const KEPT = `kerfbook ${VERSION}`;

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(KEPT).then((cache) => cache.addAll(FILES)));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) =>
        Promise.all(
          names
            .filter((name) => name.startsWith('kerfbook ') && name !== KEPT)
            .map((name) => caches.delete(name)),
        ),
      )
      .then(() => self.clients.claim()),
  );
});

self.addEventListener('message', (event) => {
  if (event.data === 'take over') self.skipWaiting();
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  if (request.method !== 'GET' || new URL(request.url).origin !== self.location.origin) return;
  const wanted = request.mode === 'navigate' ? './' : request;
  event.respondWith(
    caches
      .open(KEPT)
      .then((cache) => cache.match(wanted, { ignoreSearch: request.mode === 'navigate' }))
      .then((kept) => kept ?? fetch(request)),
  );
});
