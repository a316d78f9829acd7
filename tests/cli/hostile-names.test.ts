/**
 * Hostile words as names of files and folders, through the built program: every file is judged or said, the streams show
 * the names as words on lines of their own, JSON gives them back as they are, and the status is that of plain names.
 */
import assert from 'node:assert/strict';
import { mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { assertShows, hostileWords } from '../fuzz/hostile';
import { patience, type Random, random, runs } from '../fuzz/runs';
import { SOUND } from './odd-files';
import { asks } from './warm';

const BROKEN = 'part: [\n';
/** What every seed tries, whatever it draws. */
const ALWAYS = [
  '\u001b]0;title\u0007',
  '0 files checked: nothing found.\n',
  '\n::error file=a::no',
  '\u202eplate',
  '1 file checked: nothing found.',
  '1 file checked',
  '-x',
];

/** A name that a file can have: no slash or zero, no half of a letter, at most 200 bytes. */
function nameFor(words: string): string | undefined {
  const name = words.replace(/[/\u0000]|[\ud800-\udfff](?![\udc00-\udfff])|(?<![\ud800-\udbff])[\udc00-\udfff]/g, '');
  // A dot in front hides a file, as it should; names of our kinds are told by their end.
  return name.trim() === '' || name.startsWith('.') || Buffer.byteLength(name) > 200 ? undefined : name;
}

function names(r: Random): string[] {
  const drawn = Array.from({ length: 12 }, () => hostileWords(r));
  return [...new Set([...ALWAYS, ...drawn].flatMap((words) => nameFor(words) ?? []))];
}

describe('hostile names of files, through the built program', function () {
  this.timeout(patience(120_000));
  let folder: string;
  beforeEach(() => {
    folder = mkdtempSync(join(tmpdir(), 'scribeline-hostile-'));
  });
  afterEach(() => rmSync(folder, { recursive: true, force: true }));

  /** Both streams show nothing that hides or speaks to a terminal; each line of standard error is the program's own. */
  function assertWords({ out, err }: { out: string; err: string }, what: string): void {
    assertShows(out, '\n', what);
    assertShows(err, '\n', what);
    for (const text of [out, err]) assert.doesNotMatch(text, /^(::|##\[)/m, what);
  }

  for (let seed = 1; seed <= runs(1); seed++)
    it(`are words wherever they are told (${seed})`, () => {
      const made = names(random(700 + seed));
      for (const [i, name] of made.entries()) {
        const at = i % 3 === 2 ? join(name, 'in.part.yaml') : `${name}.part.yaml`;
        if (i % 3 === 2) mkdirSync(join(folder, name));
        writeFileSync(join(folder, at), i % 2 ? SOUND : BROKEN);
      }
      const text = asks(folder, ['check', '.']);
      assertWords(text, 'check');
      assert.equal(text.status, 1, text.err);
      assert.match(text.out, new RegExp(`^${made.length} files checked`, 'm'));
      assert.equal(text.out.match(/^\d+ files? checked/gm)?.length, 1, 'one verdict');
      const json = asks(folder, ['check', '.', '--format', 'json']);
      assertWords(json, 'json');
      const { files } = JSON.parse(json.out) as { files: { path: string }[] };
      const own = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.part.yaml'));
      assert.deepEqual(files.map((f) => f.path).sort(), own.sort(), 'the names as they are');
      const sarif = asks(folder, ['check', '.', '--format', 'sarif']);
      assertWords(sarif, 'sarif');
      JSON.parse(sarif.out);
      assert.equal(sarif.status, 1);
    });

  it('of what is not there, and of a plan, an export and a new part', () => {
    const sound = `${ALWAYS[1]!}${ALWAYS[0]!}.part.yaml`;
    writeFileSync(join(folder, sound), SOUND.slice(0, SOUND.indexOf('features:')));
    const told = [
      ...ALWAYS.map((name) => ({ words: ['check', `./${name}.part.yaml`], status: 2 })),
      { words: ['plan', sound], status: 0 },
      { words: ['export', sound, '--to', 'svg', '--face', 'top'], status: 0 },
      { words: ['new', ALWAYS[2]!], status: 2 },
      { words: ['explain', ALWAYS[0]!], status: 2 },
      { words: ['check', sound, '--shop', ALWAYS[3]!], status: 2 },
    ];
    for (const { words, status } of told) {
      const ran = asks(folder, words);
      assertWords(ran, words.join(' '));
      assert.equal(ran.status, status, `${words.join(' ')}\n${ran.out}${ran.err}`);
      assert.doesNotMatch(ran.err, /^\s+at /m, 'no stack');
    }
  });
});
