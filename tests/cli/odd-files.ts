/** Odd things under a document's name, each with what must be said of it. Made in a folder of the test's own. */
import { spawnSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';

export const CLI = resolve(__dirname, '../../dist/cli.js');

/** A part with nothing wrong in it. */
export const SOUND = `part: plate
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  seat: { kind: hole, face: top, at: { x: center, y: center }, diameter: 16 H7, depth: 7, bottom: flat }
`;
export const SHOP = 'shop: mine\nunits: mm\n';

interface Odd {
  readonly name: string;
  make(path: string): void;
  readonly says: RegExp;
}

const utf16 = (text: string, mark: boolean, big: boolean) => {
  const bytes = Buffer.from(`${mark ? '\ufeff' : ''}${text}`, 'utf16le');
  return big ? bytes.swap16() : bytes;
};

/** None of them can be read as a text. `text`: what would stand there if it could. */
export function oddFiles(text: string): readonly Odd[] {
  const put = (bytes: Buffer | string) => (path: string) => writeFileSync(path, bytes);
  return [
    { name: 'a link that leads nowhere', make: (p) => symlinkSync('nowhere', p), says: /is a link that leads nowhere/ },
    { name: 'a link to itself', make: (p) => symlinkSync(p, p), says: /is a link that leads back to itself/ },
    { name: 'a link to a device', make: (p) => symlinkSync('/dev/zero', p), says: /leads to \/dev\/zero, outside/ },
    { name: 'a pipe', make: (p) => void spawnSync('mkfifo', [p]), says: /is a pipe, not a file/ },
    { name: 'UTF-16', make: put(utf16(text, true, false)), says: /is UTF-16: save it as UTF-8/ },
    { name: 'UTF-16, the other way round', make: put(utf16(text, true, true)), says: /is UTF-16: save it as UTF-8/ },
    { name: 'UTF-16 without a mark', make: put(utf16(text, false, false)), says: /UTF-16 without a byte order mark/ },
    { name: 'UTF-16BE without a mark', make: put(utf16(text, false, true)), says: /UTF-16 without a byte order mark/ },
    { name: 'UTF-32', make: put(Buffer.from([0xff, 0xfe, 0, 0, 0x70, 0, 0, 0])), says: /is UTF-32/ },
    {
      name: 'Latin-1',
      make: put(Buffer.from(`${text}# Größe\n`, 'latin1')),
      says: /not UTF-8 \(byte 0xF6 in line \d+;/,
    },
    { name: 'UTF-8 cut in a letter', make: put(Buffer.from(`${text}# Größe\n`).subarray(0, -3)), says: /is not UTF-8/ },
    { name: 'zeros', make: put(Buffer.alloc(600)), says: /is no text \(full of zero bytes\)/ },
    {
      name: 'too large a file',
      make: put(Buffer.alloc(8_100_000, '#')),
      says: /is too large: 8\.1 MB, where at most 8 MB/,
    },
  ];
}

export function put(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, name)), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
}

/** The built program, its streams and its exit status. A hanging one is ended, and has no status. */
export function cli(words: readonly string[], cwd: string, more: { uid?: number; gid?: number } = {}) {
  const options = { cwd, encoding: 'utf8', timeout: 60_000, killSignal: 'SIGKILL', ...more } as const;
  const { status, stdout, stderr } = spawnSync(process.execPath, [CLI, ...words], options);
  return { status, out: stdout, err: stderr };
}

/** For someone who may not see everything: under root the program is run as nobody. */
export function asNobody(words: readonly string[], cwd: string) {
  return process.getuid?.() === 0 ? cli(words, cwd, { uid: 65_534, gid: 65_534 }) : cli(words, cwd);
}
