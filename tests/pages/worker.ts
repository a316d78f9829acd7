/**
 * The language server as a browser runs it: the built bundle as a worker of a page in Chromium, spoken to by the protocol's
 * own messages. Files are in memory; nothing else is answered, and a request to any address fails the test.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import {
  FIND_DOCUMENTS,
  type FileAsked,
  LIST_FOLDER,
  OWN_FILE,
  READ_FILE,
} from '../../server/src/service/files-protocol';

const DIST = join(__dirname, '../../dist');
const AT = 'http://worker.test';

interface Message {
  readonly id?: number;
  readonly method?: string;
  readonly params?: unknown;
  readonly result?: unknown;
  readonly error?: { readonly message: string };
}

export class WebServer {
  /** What the worker logged. */
  readonly logged: string[] = [];
  /** Addresses that were asked for besides the bundle's own. */
  readonly asked: string[] = [];
  /** Names of files that were read. */
  readonly read: string[] = [];
  readonly #waiting = new Map<number, { resolve(result: unknown): void; reject(error: Error): void }>();
  #count = 0;
  #page!: Page;

  private constructor(readonly files: ReadonlyMap<string, string>) {}

  /** `threads`: whether the worker may start others. */
  static async start(browser: Browser, files: ReadonlyMap<string, string>, threads = true): Promise<WebServer> {
    const server = new WebServer(files);
    const page = await browser.newPage();
    server.#page = page;
    page.on('pageerror', (error) => server.logged.push(`page: ${error.message}`));
    page.context().on('request', (request) => {
      if (!/^(?:blob:|data:)/.test(request.url()) && !request.url().startsWith(AT)) server.asked.push(request.url());
    });
    await page.route(`${AT}/**`, (route) => {
      const name = new URL(route.request().url()).pathname.slice(1);
      if (name === '') return route.fulfill({ contentType: 'text/html', body: '<body>' });
      return existsSync(join(DIST, name)) ? route.fulfill({ path: join(DIST, name) }) : route.fulfill({ status: 404 });
    });
    await page.exposeFunction('heard', (message: Message) => server.#heard(message));
    await page.goto(`${AT}/`);
    // As the editor does it: code and library from bytes, in a worker that is made from memory.
    await page.evaluate(`(async () => {
      const bytes = async (name) => (await fetch(name)).arrayBuffer();
      const before = ${threads ? "''" : "'delete globalThis.Worker;'"};
      const url = URL.createObjectURL(new Blob([before, await bytes('/web-server.js')], { type: 'text/javascript' }));
      globalThis.worker = new Worker(url);
      worker.onerror = (event) => heard({ method: 'window/logMessage', params: { message: 'worker: ' + event.message } });
      worker.onmessage = async ({ data }) => {
        if (data.method !== '${OWN_FILE}') return heard(data);
        const found = await fetch('/' + data.params.name);
        const result = found.ok ? new Uint8Array(await found.arrayBuffer()) : null;
        worker.postMessage({ jsonrpc: '2.0', id: data.id, result });
      };
      worker.postMessage({ manifold: await bytes('/manifold.wasm') });
    })()`);
    return server;
  }

  async request<T>(method: string, params: unknown): Promise<T> {
    const id = ++this.#count;
    const answer = new Promise<unknown>((resolve, reject) => this.#waiting.set(id, { resolve, reject }));
    await this.#post({ jsonrpc: '2.0', id, method, params });
    return (await answer) as T;
  }

  notify(method: string, params: unknown): Promise<void> {
    return this.#post({ jsonrpc: '2.0', method, params });
  }

  /** How many workers there are: the server's own, and those that it started. */
  get workers(): number {
    return this.#page.workers().length;
  }

  close(): Promise<void> {
    return this.#page.close();
  }

  async #heard({ id, method, params, result, error }: Message): Promise<void> {
    if (method === 'window/logMessage') this.logged.push((params as { message: string }).message);
    if (method !== undefined && id !== undefined)
      return this.#post({ jsonrpc: '2.0', id, result: this.#answerTo(method, params as FileAsked) });
    const waiting = id === undefined ? undefined : this.#waiting.get(id);
    if (error) waiting?.reject(new Error(error.message));
    else waiting?.resolve(result);
  }

  #answerTo(method: string, { uri }: FileAsked): unknown {
    const below = [...this.files.keys()].filter((file) => file.startsWith(`${uri}/`));
    if (method === FIND_DOCUMENTS) return below;
    if (method === LIST_FOLDER)
      return below.map((file) => file.slice(uri.length + 1)).filter((name) => !name.includes('/'));
    if (method !== READ_FILE) return null;
    this.read.push(uri);
    const text = this.files.get(uri);
    return text === undefined ? null : { text };
  }

  async #post(message: object): Promise<void> {
    await this.#page.evaluate(
      (told) => (globalThis as unknown as { worker: { postMessage(m: unknown): void } }).worker.postMessage(told),
      message,
    );
  }
}
