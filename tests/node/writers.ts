/** Every writer of the command line, on a folder of its own: what it is asked, which file it writes, and what stood there. */
import assert from 'node:assert/strict';
import { lstatSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import type { Disk } from '../../server/src/node/disk';
import { terminal } from '../../server/src/node/terminal';
import { runProgram } from '../../server/src/program';

const PART = `part: foot # a comment
units: mm
material: aluminium-6061-t6
body: { x: 40, y: 30, z: 12 }
features:
  bore: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: through }
`;
/** With a parameter that nothing uses: a safe fix takes it out. */
const SPARE = PART.replace('body:', 'parameters:\n  spare: 3 # why\nbody:');

export interface Writer {
  readonly name: string;
  readonly words: readonly string[];
  /** The one file it writes. */
  readonly target: string;
  /** What stands in the folder before. */
  readonly files: Readonly<Record<string, string>>;
}

export const WRITERS: readonly Writer[] = [
  {
    name: 'plan --write',
    words: ['plan', 'foot.part.yaml', '--write'],
    target: 'foot.part.yaml',
    files: { 'foot.part.yaml': PART },
  },
  {
    name: 'check --fix',
    words: ['check', 'foot.part.yaml', '--fix'],
    target: 'foot.part.yaml',
    files: { 'foot.part.yaml': SPARE },
  },
  { name: 'new', words: ['new', 'fleet.job'], target: 'fleet.job.yaml', files: {} },
  {
    name: 'export --to FORMAT',
    words: ['export', 'foot.part.yaml', '--to', 'dxf', '--face', 'top'],
    target: 'foot.dxf',
    files: { 'foot.part.yaml': PART },
  },
  {
    name: 'export --to FILE',
    words: ['export', 'foot.part.yaml', '--to', 'out.dxf', '--face', 'top'],
    target: 'out.dxf',
    files: { 'foot.part.yaml': PART, 'out.dxf': 'an older drawing\n' },
  },
  {
    name: 'sheet --to FILE',
    words: ['sheet', 'foot.part.yaml', '--to', 'out.md'],
    target: 'out.md',
    files: { 'foot.part.yaml': PART, 'out.md': 'an older sheet\n' },
  },
  {
    name: 'job --to FILE',
    words: ['job', 'feet.job.yaml', '--to', 'out.json'],
    target: 'out.json',
    files: {
      'feet.job.yaml': 'job: feet\nparts: { foot: { spec: foot.part.yaml } }\n',
      'foot.part.yaml': PART,
      'out.json': 'an older job\n',
    },
  },
  {
    name: 'import --write',
    words: ['import', 'list.csv', '--shop', 'club.shop.yaml', '--write'],
    target: 'club.shop.yaml',
    files: {
      'club.shop.yaml': 'shop: club # ours\ntools:\n  dr-3: { kind: drill, diameter: 3 } # good\n',
      'list.csv': 'kind;DC\nend mill;6\n',
    },
  },
  {
    name: 'merge',
    words: ['merge', 'base.part.yaml', 'foot.part.yaml', 'theirs.part.yaml'],
    target: 'foot.part.yaml',
    files: {
      'base.part.yaml': PART,
      'foot.part.yaml': PART.replace('x: 40', 'x: 44'),
      'theirs.part.yaml': PART.replace('diameter: 8', 'diameter: 9'),
    },
  },
];

export function makeFolder(files: Readonly<Record<string, string>>): string {
  const folder = mkdtempSync(join(tmpdir(), 'scribeline-save-'));
  mkdirSync(join(folder, 'beside'));
  for (const [name, text] of Object.entries({ ...files, 'beside/notes.txt': 'mine', 'other.shop.txt': 'x' }))
    writeFileSync(join(folder, name), text);
  return folder;
}

export const dropFolder = (folder: string) => rmSync(folder, { recursive: true, force: true });

/** Every file below a folder, with its mode and its bytes. */
export function contentsOf(folder: string): Map<string, string> {
  const found = new Map<string, string>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' }).sort()) {
    const info = lstatSync(join(folder, name));
    if (info.isFile())
      found.set(name, `${(info.mode & 0o7777).toString(8)} ${readFileSync(join(folder, name), 'latin1')}`);
  }
  return found;
}

/** What saving calls the file that it writes beside. */
export const LEFTOVER = /^\.scribeline-[0-9a-f]{16}\.tmp$/;

interface Ran {
  readonly status: 0 | 1 | 2;
  readonly out: string;
  readonly err: string;
}

/** The built program's: papers say which version printed them. */
const { version } = JSON.parse(readFileSync(resolve(__dirname, '../../package.json'), 'utf8')) as { version: string };

/** As the program runs it, in this process, on the disk that is handed in. */
export async function run(words: readonly string[], cwd: string, disk?: Disk): Promise<Ran> {
  const [out, err]: [string[], string[]] = [[], []];
  const of = { cwd, version, script: '', ...(disk && { disk }) };
  const screen = terminal(of, { colours: false, out: (t) => void out.push(t), err: (t) => void err.push(t) });
  const status = await runProgram(words, screen);
  assert.ok(status !== 'serving');
  return { status, out: out.join(''), err: err.join('') };
}
