import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';

/** Takes files that are dragged onto the page, anywhere. */
export function acceptDrops(openFiles: (files: readonly File[]) => void): void {
  const veil = el('div', { class: 'drop-veil', hidden: true }, el('p', {}, pageWords().files.letGo));
  document.body.append(veil);
  const hasFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  window.addEventListener('dragover', (event) => {
    if (!hasFiles(event)) return;
    event.preventDefault();
    veil.hidden = false;
  });
  window.addEventListener('dragleave', (event) => {
    if (event.relatedTarget === null) veil.hidden = true;
  });
  window.addEventListener('drop', (event) => {
    veil.hidden = true;
    if (!hasFiles(event)) return;
    event.preventDefault();
    openFiles([...event.dataTransfer?.files ?? []]);
  });
}
