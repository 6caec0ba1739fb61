// Keeps every file of the page in this browser, so that it works without a network. VERSION and FILES are put in when
// the page is built; a new version takes the place of the old one as a whole.
const VERSION = '{version}';
const FILES = ['{files}'];

self.addEventListener('install', (event) => {
  event.waitUntil(caches.open(VERSION).then((cache) => cache.addAll(FILES)).then(() => self.skipWaiting()));
});
self.addEventListener('activate', (event) => {
  const old = caches.keys().then((names) => Promise.all(names.filter((one) => one !== VERSION).map((one) => caches.delete(one))));
  event.waitUntil(old.then(() => self.clients.claim()));
});
self.addEventListener('fetch', (event) => {
  if (event.request.method !== 'GET') return;
  event.respondWith(caches.match(event.request, { ignoreSearch: true }).then((found) => found || fetch(event.request)));
});
