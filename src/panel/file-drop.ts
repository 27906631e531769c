import { pageWords } from '../words/page-words.ts';
import { el } from './dom.ts';

/** Takes a file that is dragged onto the page, anywhere. */
export function acceptDrops(openFile: (file: File) => void): void {
  const veil = el('div', { class: 'drop-veil', hidden: true }, el('p', {}, pageWords().stage.drop));
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
    const file = event.dataTransfer?.files[0];
    if (file !== undefined) openFile(file);
  });
}
