/** A panel's page in a browser of its own: the built page with the editor's colours, and the host that answers it. */
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { THEMES, type ThemeName } from './themes';

const DIST = join(__dirname, '../../dist');
const FLAGS = ['--no-sandbox', '--disable-gpu', '--enable-unsafe-swiftshader'];
const AT = 'http://page.test';

/** What the editor puts on a page's body for its theme; other classes are the page's own. */
const KINDS = Object.values(THEMES).flatMap((t) => t.kind.split(' '));

export const launch = (executablePath: string, more: readonly string[] = []): Promise<Browser> =>
  chromium.launch({ executablePath, args: [...FLAGS, ...more] });

interface Open {
  readonly browser: Browser;
  readonly theme: ThemeName;
  readonly size: { readonly width: number; readonly height: number };
  /** The page as the extension writes it. */
  readonly html: (sources: { script: string; style: string; cspSource: string; nonce: string }) => string;
  readonly bundle: string;
  readonly answer: (message: unknown) => Promise<readonly unknown[]>;
}

export async function openPage({ browser, theme, size, html, bundle, answer }: Open): Promise<Page> {
  const page = await browser.newPage({ viewport: { ...size } });
  page.on('pageerror', (error) => {
    throw error;
  });
  const { kind, colours } = THEMES[theme];
  const sources = { script: `${AT}/${bundle}.js`, style: `${AT}/${bundle}.css`, cspSource: AT, nonce: 'n0' };
  await page.route(`${AT}/**`, (route) => {
    const name = new URL(route.request().url()).pathname.slice(1);
    if (name !== '') return route.fulfill({ path: join(DIST, name) });
    return route.fulfill({ contentType: 'text/html', body: html(sources).replace('<body>', `<body class="${kind}">`) });
  });
  await page.exposeFunction('heardByHost', async (message: unknown) => {
    for (const told of await answer(message)) await tell(page, told);
  });
  // As text: what is compiled for here leans on helpers that the page does not have. It runs at the page's first word, when its root is there.
  await page.addInitScript(`
    globalThis.acquireVsCodeApi = () => {
      const vars = ${JSON.stringify(Object.entries(colours))};
      for (const [name, value] of vars) document.documentElement.style.setProperty('--vscode-' + name, value);
      let kept;
      return {
        postMessage: (message) => globalThis.heardByHost(message),
        getState: () => kept,
        setState: (state) => { kept = state; },
      };
    };`);
  await page.goto(`${AT}/`);
  return page;
}

/** The editor changes its theme under the page: first the colours, then the body's class, as it does. */
export async function wear(page: Page, theme: ThemeName): Promise<void> {
  const { kind, colours } = THEMES[theme];
  const all = [...new Set(Object.values(THEMES).flatMap((t) => Object.keys(t.colours)))];
  const vars = all.map((name) => [name, colours[name] ?? '']);
  await page.evaluate(
    `for (const [name, value] of ${JSON.stringify(vars)}) document.documentElement.style.setProperty('--vscode-' + name, value); document.body.classList.remove(...${JSON.stringify(KINDS)}); document.body.classList.add(...${JSON.stringify(kind.split(' '))});`,
  );
}

export async function tell(page: Page, message: unknown): Promise<void> {
  await page.evaluate((told) => {
    (globalThis as unknown as { postMessage(m: unknown, to: string): void }).postMessage(told, '*');
  }, message);
}

/** Waits until what was said is answered and drawn, and labels are where they stay. */
export async function settled(page: Page): Promise<void> {
  let last = '';
  for (let i = 0; i < 60; i++) {
    await page.waitForTimeout(80);
    const now = String(
      await page.evaluate(
        `[...document.querySelectorAll('#labels > *')].map((e) => e.style.transform + e.textContent).join() + document.body.dataset.version + document.querySelector('#step')?.textContent`,
      ),
    );
    if (now === last && i > 1) return;
    last = now;
  }
}
