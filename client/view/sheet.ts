/** The sheet's page: takes pages from the extension as SVG and shows them, each where the one before it stood. */

// A module of its own, beside the part view’s.
export {};

interface Message {
  readonly type?: unknown;
  readonly pages?: unknown;
  readonly why?: unknown;
}

declare function acquireVsCodeApi(): { postMessage(message: { type: 'ready' }): void };

const paper = document.querySelector<HTMLElement>('main')!;
const status = document.querySelector<HTMLElement>('[role=status]')!;

window.addEventListener('message', ({ data }: MessageEvent<Message>) => {
  if (data?.type === 'older' && typeof data.why === 'string') {
    status.textContent = data.why;
    return;
  }
  if (data?.type !== 'pages' || !Array.isArray(data.pages)) return;
  const pages = data.pages.flatMap((page) => (typeof page === 'string' ? (pageOf(page) ?? []) : []));
  // Pages are put in each other's place, so that what one looks at stays where it is.
  for (const [i, page] of pages.entries()) {
    const shown = paper.children[i];
    if (shown) shown.replaceWith(page);
    else paper.append(page);
  }
  while (paper.children.length > pages.length) paper.lastElementChild!.remove();
  status.textContent = typeof data.why === 'string' ? data.why : '';
});

/** Read as XML: what is no drawing is not shown, and nothing in it runs. */
function pageOf(svg: string): Element | undefined {
  const root = new DOMParser().parseFromString(svg, 'image/svg+xml').documentElement;
  return root.localName === 'svg' ? document.importNode(root, true) : undefined;
}

acquireVsCodeApi().postMessage({ type: 'ready' });
