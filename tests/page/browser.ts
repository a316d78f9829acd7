/** A page of its own in a real browser, where one is there: what it draws, says, asks for and complains of. */
import { existsSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { chromium, type Page } from 'playwright-core';

const FOUND = [
  process.env.SCRIBELINE_CHROMIUM ?? '',
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
];
const BROWSER = FOUND.find((path) => path !== '' && existsSync(path));

export const HAS_BROWSER = BROWSER !== undefined;

interface Seen {
  /** Of other things than the file. */
  readonly requests: readonly string[];
  readonly complaints: readonly string[];
}

/** `scripts`: whether they run. */
export async function inBrowser(
  file: string,
  scripts: boolean,
  look: (page: Page, seen: Seen) => Promise<void>,
): Promise<void> {
  const args = ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--enable-unsafe-swiftshader'];
  const browser = await chromium.launch({
    executablePath: BROWSER!,
    args: [...args, '--disable-background-networking'],
  });
  try {
    const context = await browser.newContext({ javaScriptEnabled: scripts, viewport: { width: 1200, height: 900 } });
    const page = await context.newPage();
    const [requests, complaints]: [string[], string[]] = [[], []];
    page.on('request', (r) => {
      if (r.url() !== pathToFileURL(file).href) requests.push(r.url());
    });
    page.on('pageerror', (e) => complaints.push(e.message));
    page.on('console', (m) => {
      if (m.type() === 'error') complaints.push(m.text());
    });
    await page.goto(pathToFileURL(file).href);
    await look(page, { requests, complaints });
  } finally {
    await browser.close();
  }
}
