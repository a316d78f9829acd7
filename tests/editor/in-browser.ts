/**
 * The packaged extension in an editor in a browser: VS Code's server lends the files alone, the extension and its language
 * server run in the page. What runs on Node is taken out of the installed package first. Findings, a fix, hover, the part
 * view and a plan are asked for as a person does; any address beyond this machine fails the run.
 */
import assert from 'node:assert/strict';
import { mkdir, readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { chromium, type Page } from 'playwright-core';
import { endChildrenWithUs } from './children';
import { startServer } from './editor-server';
import { getBrowser, getHost } from './host';
import { ARTEFACTS, builtPackage, copyFixture, freshFolder } from './places';
import { SETTINGS } from './settings';

const FLAGS = ['--no-sandbox', '--disable-gpu', '--disable-background-networking', '--enable-unsafe-swiftshader'];
const LONGEST_MS = 60_000;
const IN_PAGE = { ...SETTINGS, 'remote.extensionKind': { 'scribeline.scribeline': ['web'] } };

const say = (line: string) => console.log(`browser editor: ${line}`);

/** What an editor on Node would start. */
async function takeOutNode(extensions: string): Promise<void> {
  const [name] = (await readdir(extensions)).filter((folder) => folder.startsWith('scribeline.scribeline'));
  for (const file of ['extension.js', 'server.js', 'aside-worker.js', 'mesh-worker.js'])
    await rm(join(extensions, name!, 'dist', file));
}

async function command(page: Page, title: string): Promise<void> {
  await page.keyboard.press('F1');
  const input = page.locator('.quick-input-box input');
  await input.waitFor({ timeout: LONGEST_MS });
  await input.fill(`>${title}`);
  await page.locator('.quick-input-list .monaco-list-row', { hasText: title }).first().click({ timeout: LONGEST_MS });
}

const panel = (page: Page) => page.frameLocator('iframe.webview').last().frameLocator('#active-frame');

async function used(page: Page): Promise<void> {
  const squiggle = page.locator('.squiggly-error').first();
  await squiggle.waitFor({ timeout: LONGEST_MS });
  say('a finding is underlined');
  await command(page, 'Go to Next Problem in Files');
  await page.locator('.marker-widget', { hasText: 'There is no feature or face' }).waitFor({ timeout: LONGEST_MS });
  await page.keyboard.press('Escape');
  say('it says what is wrong');
  await page.keyboard.press('Control+.');
  await page.locator('.action-widget', { hasText: 'Write' }).waitFor({ timeout: LONGEST_MS });
  await page.keyboard.press('Enter');
  await page.locator('.view-lines', { hasText: /B:\s+mount\s/ }).waitFor({ timeout: LONGEST_MS });
  await squiggle.waitFor({ state: 'detached', timeout: LONGEST_MS });
  say('its fix is written, and it is gone');
  await command(page, 'Show or Focus Hover');
  await page.locator('.monaco-hover', { hasText: 'hole on top' }).first().waitFor({ timeout: LONGEST_MS });
  await page.keyboard.press('Escape');
  say('hover says what the name is');
  await command(page, 'Scribeline: Show Part View');
  await panel(page).locator('canvas').waitFor({ timeout: LONGEST_MS });
  await panel(page).getByText('mount').first().waitFor({ timeout: LONGEST_MS });
  say('the part is drawn');
  await command(page, 'Scribeline: Plan Set-ups');
  await page.waitForTimeout(500);
  await panel(page).getByText('1 set-up').first().waitFor({ timeout: LONGEST_MS });
  say('its set-ups are planned');
}

async function main(): Promise<void> {
  const home = await freshFolder();
  endChildrenWithUs(() => rm(home, { recursive: true, force: true }));
  const [host, executablePath] = [await getHost(say), await getBrowser(say)];
  const folder = await copyFixture(home);
  await mkdir(ARTEFACTS, { recursive: true });
  const server = await startServer({
    host,
    home,
    vsix: builtPackage(),
    settings: IN_PAGE,
    forTests: false,
    name: 'localhost',
  });
  await takeOutNode(join(home, 'extensions'));
  const browser = await chromium.launch({ executablePath, args: FLAGS });
  try {
    const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
    const beyond: string[] = [];
    page.context().on('request', (request) => {
      const { protocol, hostname } = new URL(request.url());
      // What panels load by such a name comes from this machine: the editor's own service worker answers.
      if (
        /^(?:http|ws)s?:$/.test(protocol) &&
        !/(?:^|\.)localhost$|^127\.0\.0\.1$|\.vscode-resource\.vscode-cdn\.net$/.test(hostname)
      )
        beyond.push(request.url());
    });
    const at = `localhost:${server.port}`;
    const payload = [
      ['openFile', `vscode-remote://${at}${join(folder, 'misspelt.part.yaml')}`],
      ['skipWelcome', 'true'],
    ];
    await page.goto(`http://${at}/?${new URLSearchParams({ folder, payload: JSON.stringify(payload) })}`);
    await used(page).finally(() => page.screenshot({ path: join(ARTEFACTS, 'in-browser.png') }));
    assert.deepEqual(beyond, [], 'an address beyond this machine was asked for');
  } finally {
    await browser.close();
    await server.stop();
    await rm(home, { recursive: true, force: true, maxRetries: 3 });
  }
}

main().then(
  () => {
    console.log('browser editor: all passed');
    process.exit(0);
  },
  (error) => {
    console.error(error instanceof Error ? error.stack : error);
    process.exit(1);
  },
);
