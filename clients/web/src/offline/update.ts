// Keeps the app for when there is no network, and changes to a newer version
// when the person says so.

/** A newer version is there. Agreeing opens it in every tab. */
export interface Newer {
  agree(): void;
}

// Looked for again after so long, ms.
const lookMs = 6 * 3_600_000;

/** The worker that keeps the app, registered; undefined in private windows of some browsers, which have none. */
export function registered(): Promise<ServiceWorkerRegistration> | undefined {
  const workers = navigator.serviceWorker as ServiceWorkerContainer | undefined;
  return workers?.register('/sw.js', { type: 'module' });
}

/** Registers the worker that serves the app, and calls heed once a newer version waits. */
export async function keepOffline(heed: (newer: Newer) => void): Promise<void> {
  const registration = await registered();
  if (!registration) return;
  navigator.serviceWorker.addEventListener('message', ({ data }) => {
    if (data === 'changed') location.reload();
  });
  const look = async (): Promise<void> => {
    // The newest may still wait for the other's last answer: it is asked all the same.
    const worker = registration.waiting ?? registration.active;
    if (!worker) return;
    const { newest, served } = await ask(worker, 'versions');
    if (newest !== served) heed({ agree: () => void ask(worker, 'agree').then(() => location.reload()) });
  };
  const follow = (): void => registration.installing?.addEventListener('statechange', () => void look());
  registration.addEventListener('updatefound', follow);
  follow(); // one that began before this page was opened
  const again = (): void => void registration.update().catch(() => undefined); // no network: next time
  setInterval(again, lookMs);
  addEventListener('online', again);
  await look();
}

interface Versions {
  newest: string;
  served: string;
}

function ask(worker: ServiceWorker, what: 'versions' | 'agree'): Promise<Versions> {
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<Versions>) => resolve(data);
    worker.postMessage(what, [port2]);
  });
}
