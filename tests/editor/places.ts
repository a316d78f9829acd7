/** Where things are in this repository. */
import { existsSync, readFileSync } from 'node:fs';
import { cp, mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '../..');
export const ARTEFACTS = join(ROOT, 'tests/artefacts');
export const RUNNER_EXTENSION = join(ROOT, 'tests/editor/runner-extension');

/** Pictures and logs of the editor in a browser begin so: the other's lie beside them. */
const IN_BROWSER = 'browser-';

/** What the last run in that editor left goes; the other may be running. */
export async function emptyArtefacts(inBrowser: boolean): Promise<void> {
  await mkdir(ARTEFACTS, { recursive: true });
  for (const file of await readdir(ARTEFACTS))
    if (file.startsWith(IN_BROWSER) === inBrowser) await rm(join(ARTEFACTS, file), { recursive: true, force: true });
}

/** The package that `npm run package` made. */
export function builtPackage(): string {
  const { name, version } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as Record<string, string>;
  const file = join(ROOT, `${name}-${version}.vsix`);
  if (!existsSync(file)) throw new Error(`${file} is missing: run “npm run package” first.`);
  return file;
}

/** A fresh folder for everything that one run writes. */
export function freshFolder(): Promise<string> {
  return mkdtemp(join(tmpdir(), 'scribeline-editor-'));
}

/** A copy of the fixture, so that no run can change it. */
export async function copyFixture(home: string): Promise<string> {
  const folder = join(home, 'gimbal');
  await cp(join(ROOT, 'tests/editor/fixture'), folder, { recursive: true });
  return folder;
}
