/** Called when a new build stands ready; calling it puts the new one in place and loads the page again. */
type Ready = (takeIt: () => void) => void;

let whenReady: Ready | undefined;
let ready: (() => void) | undefined;

/** May this page be kept for use without a signal? Not over plain http, save on this very machine. */
export const canKeepOffline = (): boolean => window.isSecureContext && "serviceWorker" in navigator;

export function onNewVersion(tell: Ready): void {
  whenReady = tell;
  if (ready !== undefined) tell(ready);
}

/** Has the browser keep everything that was built. */
export function keepOffline(): void {
  if (!canKeepOffline() || import.meta.env.DEV) return;
  let asked = false;
  navigator.serviceWorker.addEventListener("controllerchange", () => {
    if (asked) location.reload();
  });
  navigator.serviceWorker.register("service-worker.js").then((registration) => {
    const offer = (worker: ServiceWorker) => {
      ready = () => {
        asked = true;
        worker.postMessage("take over");
      };
      whenReady?.(ready);
    };
    if (registration.waiting !== null && navigator.serviceWorker.controller !== null) offer(registration.waiting);
    registration.addEventListener("updatefound", () => {
      const worker = registration.installing;
      worker?.addEventListener("statechange", () => {
        if (worker.state === "installed" && navigator.serviceWorker.controller !== null) offer(worker);
      });
    });
  });
}
