/// <reference lib="dom" />

/**
 * An HTML or SVG element with attributes and children; text becomes text nodes, never markup.
 *
 * This and all functions of this folder run in the reader's browser: the page holds their source text, so each uses
 * nothing but its arguments and the browser.
 */
export function makeElement(
  name: string,
  attributes: Readonly<Record<string, string | number>> = {},
  children: ReadonlyArray<Node | string> = [],
): HTMLElement {
  const drawn = ['svg', 'g', 'path', 'circle', 'line', 'rect', 'text'].includes(name);
  // Callers use only what HTML and SVG elements share.
  const element = (
    drawn ? document.createElementNS('http://www.w3.org/2000/svg', name) : document.createElement(name)
  ) as HTMLElement;
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  element.append(...children);
  return element;
}

export type MakeElement = typeof makeElement;
