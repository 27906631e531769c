/** Hands a text to the browser's downloads, under a name. */
export function downloadText(name: string, type: string, text: string): void {
  downloadBlob(name, new Blob([text], { type }));
}

/** Hands a file to the browser's downloads, under a name. */
export function downloadBlob(name: string, blob: Blob): void {
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => { URL.revokeObjectURL(url); }, 10_000);
}

/** Puts a text on the clipboard; false where the browser does not let the page. */
export async function copyText(text: string): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(text);
    return true;
  } catch { return copyBySelection(text); }
}

/** Without leave for the clipboard, as on a page that was not served safely. */
function copyBySelection(text: string): boolean {
  const area = document.createElement('textarea');
  area.value = text;
  area.setAttribute('readonly', '');
  area.className = 'visually-hidden';
  const before = document.activeElement;
  (document.querySelector('dialog[open]') ?? document.body).append(area);
  area.select();
  const isCopied = document.execCommand('copy');
  area.remove();
  if (before instanceof HTMLElement) before.focus();
  return isCopied;
}
