// Serves the app where there is no network. A version is kept whole under its
// own name; which one is served changes only when the person agrees, so that a
// page never finds half of another version, and an update never meets an entry
// that is being made.
export {};

declare const self: ServiceWorkerGlobalScope;

// Put in by the build.
const version = '__VERSION__';
const files: readonly string[] = ['__FILES__'];

const prefix = 'freshet-app-';
const keeper = 'freshet-served';
const pointer = '/served-version';

/** What pages ask: which version is served, and to serve this one from now on. */
type Asked = 'versions' | 'agree';

self.addEventListener('install', (event) => event.waitUntil(fetchAll()));
self.addEventListener('activate', (event) => event.waitUntil(self.clients.claim()));
self.addEventListener('message', (event) => event.waitUntil(answer(event)));
self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  // Calls of the co-op are none of its business.
  if (event.request.method !== 'GET' || url.origin !== location.origin || url.pathname.startsWith('/v1/')) return;
  event.respondWith(serve(event.request, url));
});

async function fetchAll(): Promise<void> {
  const cache = await caches.open(prefix + version);
  await cache.addAll(files.map((file) => new Request(file, { cache: 'no-cache' })));
  if (!(await served())) await point();
  // It may take over at once: what is served stays as it is.
  await self.skipWaiting();
}

async function answer(event: ExtendableMessageEvent): Promise<void> {
  if ((event.data as Asked) === 'agree') {
    await point();
    for (const name of await caches.keys()) if (name.startsWith(prefix) && name !== prefix + version) await caches.delete(name);
    for (const page of await self.clients.matchAll({ type: 'window', includeUncontrolled: true })) page.postMessage('changed');
  }
  event.ports[0]?.postMessage({ newest: version, served: await served() });
}

async function served(): Promise<string | undefined> {
  return (await (await caches.open(keeper)).match(pointer))?.text();
}

async function point(): Promise<void> {
  serving = undefined;
  await (await caches.open(keeper)).put(pointer, new Response(version));
}

/** What is served from, found once: a page asks for ten files as it opens. */
let serving: Promise<Cache> | undefined;

/** The page for phones that have the app. Releases before had one page. */
async function page(cache: Cache): Promise<Response | undefined> {
  return (await cache.match('/opened.html')) ?? cache.match('/index.html');
}

async function serve(request: Request, url: URL): Promise<Response> {
  serving ??= served().then((which) => caches.open(prefix + (which ?? version)));
  const cache = await serving;
  const name = url.pathname;
  const kept = name === '/' ? await page(cache) : await cache.match(name);
  if (kept) return kept;
  const fetched = await fetch(request);
  // The invented records are kept once somebody has looked around in them.
  if (fetched.ok && /^\/invented[\w.]*$/.test(name)) await cache.put(name, fetched.clone());
  return fetched;
}
