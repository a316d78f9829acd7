/** A folder of its own for each test of the built program, and what is run and written in it. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, resolve } from 'node:path';

const CLI = resolve(__dirname, '../../dist/cli.js');
const AS_SOMEBODY = ['-c', 'user.name=a', '-c', 'user.email=a@example.org'];

export const HAS_GIT = spawnSync('git', ['--version']).status === 0;

interface Ran {
  readonly status: number | null;
  readonly out: string;
  readonly err: string;
}

function ran(program: string, words: readonly string[], cwd: string): Ran {
  const { status, stdout, stderr } = spawnSync(program, words, { cwd, encoding: 'utf8' });
  return { status, out: stdout, err: stderr };
}

/** The program run elsewhere. */
export function runIn(folder: string, ...words: readonly string[]): Ran {
  return ran(process.execPath, [CLI, ...words], folder);
}

/** Made before each test of the suite that calls it, and gone after it. */
export function ownFolder(name: string) {
  let folder = '';
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), `scribeline-${name}-`));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));
  const at = (path: string) => join(folder, path);
  return {
    at,
    run: (...words: readonly string[]) => runIn(folder, ...words),
    git: (...words: readonly string[]) => ran('git', [...AS_SOMEBODY, ...words], folder),
    write(path: string, text: string): void {
      mkdirSync(dirname(at(path)), { recursive: true });
      writeFileSync(at(path), text);
    },
    read: (path: string) => readFileSync(at(path), 'utf8'),
  };
}
