/** A browser window showing the editor: opens it on a suite, makes gestures and screenshots, tells when the suite ends. */
import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { type Browser, chromium, type FrameLocator, type Page } from 'playwright-core';
import type { Signal } from './signals';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--enable-unsafe-swiftshader',
];

interface WindowOptions {
  readonly browser: string;
  readonly port: number;
  /** What the page is called by; as the server was told. */
  readonly name?: 'localhost';
  /** Absolute paths. */
  readonly folder: string;
  readonly runnerExtension: string;
  readonly suite: string;
  readonly artefacts: string;
}

export class EditorWindow {
  readonly #browser: Browser;
  readonly #page: Page;
  readonly #artefacts: string;
  /** What the page wrote to its console, the last of it. */
  readonly console: string[] = [];
  /** Addresses beyond this machine that were asked for. */
  readonly beyond: string[] = [];
  /** Resolves when the editor says that the suite is over, or that it cannot go on. Says nothing of success. */
  readonly over: Promise<string>;

  private constructor(browser: Browser, page: Page, artefacts: string, over: Promise<string>) {
    this.#browser = browser;
    this.#page = page;
    this.#artefacts = artefacts;
    this.over = over;
    page.context().on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      // What panels load by such a name comes from this machine: the editor's own service worker answers.
      const isOurs = /(?:^|\.)localhost$|^127\.0\.0\.1$|\.vscode-resource\.vscode-cdn\.net$/.test(hostname);
      if (/^(?:http|ws)s?:$/.test(protocol) && !isOurs) this.beyond.push(request.url());
    });
    page.on('console', (message) => {
      this.console.push(message.text());
      if (this.console.length > 200) this.console.shift();
    });
  }

  static async open(options: WindowOptions): Promise<EditorWindow> {
    await mkdir(options.artefacts, { recursive: true });
    const browser = await chromium.launch({ executablePath: options.browser, args: FLAGS, timeout: 60_000 });
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const over = new Promise<string>((resolve) => {
      void page.exposeFunction('codeAutomationExit', (code: number) =>
        resolve(`the editor closed the suite (${code})`),
      );
      void page.exposeFunction('codeAutomationLog', () => {});
      page.once('crash', () => resolve('the page crashed'));
      browser.once('disconnected', () => resolve('the browser went away'));
    });
    const window = new EditorWindow(browser, page, options.artefacts, over);
    await page.goto(address(options), { timeout: 60_000, waitUntil: 'commit' });
    return window;
  }

  async act(signal: Signal): Promise<string> {
    const page = this.#page;
    switch (signal.do) {
      case 'screenshot':
        await page.screenshot({ path: join(this.#artefacts, `${signal.name}.png`) });
        return '';
      case 'press':
        await page.keyboard.press(signal.keys);
        return '';
      case 'type':
        await page.keyboard.type(signal.text, { delay: 20 });
        return '';
      case 'click':
        await this.#click(signal);
        return '';
      case 'hover':
        await page.locator(signal.selector).first().hover({ timeout: 10_000 });
        return '';
      case 'drag':
        await this.#drag(signal);
        return '';
      case 'take':
        await this.#take(signal.selector, signal.word);
        return '';
      case 'choose':
        await this.#inside(true).locator(signal.selector).selectOption(signal.value, { timeout: 10_000 });
        return '';
      case 'attribute':
        return (
          (await this.#inside(true).locator(signal.selector).first().getAttribute(signal.name, { timeout: 10_000 })) ??
          ''
        );
      case 'pixels':
        return JSON.stringify(await this.#inside(true).locator(signal.selector).evaluate(pixelsOf));
      case 'result':
        throw new Error('a result is no gesture');
      case 'read':
        return this.#read(signal);
    }
  }

  /** What is on the screen: a panel that was put away keeps its text. One whose page is just then loaded anew is read again. */
  async #read(signal: Extract<Signal, { do: 'read' }>, tries = 3): Promise<string> {
    const shown = this.#inside(signal.inPanel === true)
      .locator(signal.selector)
      .filter({ visible: true });
    try {
      return (await shown.allInnerTexts()).join('\n');
    } catch (failure) {
      if (tries <= 1 || !/context was destroyed|frame (?:was|got) detached/i.test(String(failure))) throw failure;
      await this.#page.waitForTimeout(100);
      return this.#read(signal, tries - 1);
    }
  }

  async #click(signal: Extract<Signal, { do: 'click' }>): Promise<void> {
    const found = this.#inside(signal.inPanel === true)
      .locator(signal.selector)
      .first();
    const box = signal.x === undefined || signal.y === undefined ? undefined : await found.boundingBox();
    const position = box && { x: box.width * (signal.x ?? 0.5), y: box.height * (signal.y ?? 0.5) };
    await found.click({ timeout: 10_000, ...(position && { position }) });
  }

  /** Asked here, where it costs no way to the suite and back. A key that a busy editor lost is pressed once more. */
  async #take(selector: string, word: string): Promise<void> {
    const says = async () => (await this.#page.locator(selector).allInnerTexts()).join(' ');
    const until = async (done: (text: string) => boolean, ms: number) => {
      const end = Date.now() + ms;
      for (;;) {
        const text = await says();
        if (done(text) || Date.now() > end) return text;
        await this.#page.waitForTimeout(25);
      }
    };
    const found = await until((text) => text === word, 10_000);
    if (found !== word) throw new Error(`the list should stand at “${word}”; it stands at “${found}”`);
    for (let tries = 0; tries < 3; tries++) {
      await this.#page.keyboard.press('Enter');
      if ((await until((text) => text !== word, 1_000)) !== word) return;
    }
    throw new Error(`“${word}” is not taken by Enter`);
  }

  async #drag({ selector, from, to, hold }: Extract<Signal, { do: 'drag' }>): Promise<void> {
    const box = await this.#inside(true).locator(selector).first().boundingBox();
    if (!box) throw new Error(`${selector} is not on the screen`);
    const { mouse, keyboard } = this.#page;
    const go = ([x, y]: readonly [number, number]) =>
      mouse.move(box.x + box.width * x, box.y + box.height * y, { steps: 4 });
    await go(from);
    if (hold) await keyboard.down(hold);
    await mouse.down();
    await go(to);
    await mouse.up();
    if (hold) await keyboard.up(hold);
  }

  #inside(panel: boolean): Page | FrameLocator {
    return panel ? this.#page.frameLocator('iframe.webview').frameLocator('#active-frame') : this.#page;
  }

  async close(): Promise<void> {
    await this.#browser.close().catch(() => {});
  }
}

interface Pen {
  drawImage(of: unknown, x: number, y: number): void;
  getImageData(x: number, y: number, w: number, h: number): { readonly data: Uint8ClampedArray };
}
interface Canvas {
  width: number;
  height: number;
  readonly ownerDocument: { createElement(name: string): Canvas };
  getContext(kind: '2d'): Pen;
}

/** Runs inside the page, so it leans on nothing outside itself. */
function pixelsOf(element: unknown): {
  share: number;
  colours: number;
  sum: number;
  corner: readonly number[];
} {
  const canvas = element as Canvas;
  const { width, height } = canvas;
  const copy = canvas.ownerDocument.createElement('canvas');
  copy.width = width;
  copy.height = height;
  const pen = copy.getContext('2d');
  pen.drawImage(canvas, 0, 0);
  const { data } = pen.getImageData(0, 0, width, height);
  const seen = new Set<number>();
  let other = 0;
  let sum = 0;
  for (let i = 0; i < data.length; i += 4) {
    for (let k = 0; k < 3; k++) sum = (Math.imul(sum, 31) + data[i + k]!) | 0;
    const same = [0, 1, 2].every((k) => Math.abs(data[i + k]! - data[k]!) < 3);
    if (same) continue;
    other++;
    seen.add(((data[i]! >> 3) << 10) | ((data[i + 1]! >> 3) << 5) | (data[i + 2]! >> 3));
  }
  return { share: other / (data.length / 4), colours: seen.size, sum, corner: [...data.slice(0, 3)] };
}

function address(options: WindowOptions): string {
  const at = `${options.name ?? '127.0.0.1'}:${options.port}`;
  const remote = (path: string) => `vscode-remote://${at}${path}`;
  const payload = [
    ['extensionDevelopmentPath', remote(options.runnerExtension)],
    ['extensionTestsPath', remote(options.suite)],
    ['skipWelcome', 'true'],
  ];
  const query = new URLSearchParams({ folder: options.folder, payload: JSON.stringify(payload) });
  return `http://${at}/?${query}`;
}
