/**
 * Keeps the built page for the time without a network. `onNewVersion` is told of a newer version that
 * lies ready, with the way to it: the page never goes over to it by itself.
 */
export function keepOffline(onNewVersion: (reload: () => void) => void): void {
  // `MODE`, not `PROD`: that one tells of the environment in which the page was built, a test's as it may be.
  if (import.meta.env.MODE !== 'production' || !('serviceWorker' in navigator)) return;
  const { serviceWorker } = navigator;
  // Without it the page works all the same, as long as there is a network: nothing to tell a person of.
  serviceWorker.register(new URL('sw.js', document.baseURI), { updateViaCache: 'none' }).then((registration: ServiceWorkerRegistration | undefined) => {
    // A browser that is told to block workers answers with none.
    if (registration === undefined) return;
    const offer = (): void => { onNewVersion(() => { goOver(registration); }); };
    const watch = (worker: ServiceWorker | null): void => {
      worker?.addEventListener('statechange', () => { if (worker.state === 'installed' && serviceWorker.controller !== null) offer(); });
    };
    if (registration.waiting !== null && serviceWorker.controller !== null) offer();
    watch(registration.installing);
    registration.addEventListener('updatefound', () => { watch(registration.installing); });
    lookAgain(registration);
  }, () => undefined);
}

/** A page may stay open for weeks: it asks again when it is looked at, once in a while. */
const HOUR_MS = 3_600_000;

function lookAgain(registration: ServiceWorkerRegistration): void {
  let asked = Date.now();
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState !== 'visible' || Date.now() - asked < HOUR_MS) return;
    asked = Date.now();
    registration.update().catch(() => undefined);
  });
}

/** Another window may have gone over already: then a reload is enough. */
function goOver({ waiting }: ServiceWorkerRegistration): void {
  if (waiting === null) { location.reload(); return; }
  navigator.serviceWorker.addEventListener('controllerchange', () => { location.reload(); });
  waiting.postMessage('take over');
}
