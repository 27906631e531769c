import { pageLanguage, pageWords } from '../words/page-words.ts';

/** Puts the page's own words over those that index.html has for a page that is still loading. */
export function dressPage(): void {
  const { page, stage, messages } = pageWords();
  document.documentElement.lang = pageLanguage();
  document.title = page.title;
  write('.skip-link', page.toControls);
  write('#yarns h2', page.yarn);
  const labels: Readonly<Record<string, string>> = {
    stage: stage.label, sock: stage.canvas, notices: messages.label, strip: page.strip, deck: page.deck, measures: page.measures, yarns: page.yarnLabel,
    tolerance: page.tolerance, care: page.care, panel: page.controls,
  };
  for (const [id, label] of Object.entries(labels)) document.getElementById(id)?.setAttribute('aria-label', label);
}

function write(selector: string, text: string): void {
  const element = document.querySelector(selector);
  if (element !== null) element.textContent = text;
}
