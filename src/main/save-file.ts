import { writeSock } from '../plan/write-sock.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** Hands the sock to the browser's downloads. */
export function saveSockFile(file: SockFile): void {
  const url = URL.createObjectURL(new Blob([writeSock(file)], { type: 'application/json' }));
  const link = document.createElement('a');
  link.href = url;
  link.download = `${fileName(file.name ?? '')}.json`;
  link.click();
  setTimeout(() => { URL.revokeObjectURL(url); }, 10_000);
}

/** Letters, figures and dashes only, so that the name is good on any disk. */
export function fileName(name: string): string {
  const plain = name.normalize('NFKD').toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 60);
  return plain === '' ? 'sock' : plain;
}
