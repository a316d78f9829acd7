/** A folder of its own for each test of the built program, and what is run and written in it. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { asks, type Ran } from './warm';

const AS_SOMEBODY = ['-c', 'user.name=a', '-c', 'user.email=a@example.org'];

export const HAS_GIT = spawnSync('git', ['--version']).status === 0;

function ran(program: string, words: readonly string[], cwd: string): Ran {
  const { status, stdout, stderr } = spawnSync(program, words, { cwd, encoding: 'utf8' });
  return { status, out: stdout, err: stderr };
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
    run: (...words: readonly string[]) => asks(folder, words),
    git: (...words: readonly string[]) => ran('git', [...AS_SOMEBODY, ...words], folder),
    write(path: string, text: string): void {
      mkdirSync(dirname(at(path)), { recursive: true });
      writeFileSync(at(path), text);
    },
    read: (path: string) => readFileSync(at(path), 'utf8'),
  };
}
