type Child = Node | string | null;
type Attributes = Readonly<Record<string, string | number | boolean | null>>;

/**
 * Makes an element. Attributes that are null or false are left out, true stands without a value;
 * null children are skipped.
 */
export function el<K extends keyof HTMLElementTagNameMap>(
  tag: K, attributes: Attributes = {}, ...children: readonly Child[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  setAttributes(element, attributes);
  element.append(...children.filter((child) => child !== null));
  return element;
}

export function setAttributes(element: Element, attributes: Attributes): void {
  for (const [name, value] of Object.entries(attributes)) {
    if (value === null || value === false) element.removeAttribute(name);
    else element.setAttribute(name, value === true ? '' : String(value));
  }
}

/** Writes text only where it differs, so that a live region does not speak twice and a selection stays. */
export function setText(element: Element, text: string): void {
  if (element.textContent !== text) element.textContent = text;
}

/** A button that never submits a form. */
export function button(label: string, attributes: Attributes, onClick: () => void): HTMLButtonElement {
  const element = el('button', { type: 'button', ...attributes }, label);
  element.addEventListener('click', onClick);
  return element;
}
