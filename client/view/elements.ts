/** Making elements of a page. Words are set as text only. */

export type Child = Node | string;

export function make(
  name: string,
  children: readonly Child[] = [],
  more: Readonly<Record<string, string>> = {},
): HTMLElement {
  const made = document.createElement(name);
  for (const [key, value] of Object.entries(more)) made.setAttribute(key, value);
  made.append(...children);
  return made;
}

export const text = (name: string, words: string, kind = ''): HTMLElement =>
  make(name, [words], kind ? { class: kind } : {});
