import type { OpenPort } from './client.ts';

/** Starts the page's worker. Throws where the browser has no module workers. */
export function openWorker(): OpenPort {
  const worker = new Worker(new URL('./sock.worker.ts', import.meta.url), { type: 'module' });
  const opened: OpenPort = { port: worker, close: () => { worker.terminate(); }, onDeath: null };
  worker.onerror = (event) => {
    event.preventDefault();
    opened.onDeath?.(event.message === '' ? 'The knitting worker could not be started.' : event.message);
  };
  worker.onmessageerror = () => { opened.onDeath?.('A message from the knitting worker could not be read.'); };
  return opened;
}
