/** `scribeline plan`: what it writes, what it leaves as it was and why, and its exit status. */
import assert from 'node:assert/strict';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { dropFolder, makeFolder, run } from '../node/writers';

const HEAD = `part: stand-foot
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
`;
const FEATURES = `features:
  spike: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: 7 }
  lock: { kind: hole, face: front, at: { x: 12, z: 8 }, diameter: 4, depth: 12 }
`;
const SETUPS = `setups:
  first: # took an evening, do not touch
    up: top
    hold: { vise: mill-vise-100, jaws: [back, front], grip: 9, parallels: 22, stop: left }
    zero: { x: left, y: back, z: parallels }
    cuts: [spike]
  second:
    up: front
    hold: { vise: mill-vise-100, jaws: [bottom, top], grip: 20, parallels: 14, stop: left }
    zero: { x: left, y: parallels, z: bottom }
    cuts: [lock]
`;
const SOUND = HEAD + FEATURES + SETUPS;

/** Each hides something of the part from whoever reads it. */
const UNREAD: Readonly<Record<string, readonly [text: string, rule: RegExp, line: number]>> = {
  'a mistyped key': [SOUND.replace('features:', 'feature:'), /form\/schema/, 5],
  'an expression that is not finished': [SOUND.replace('depth: 7 }', 'depth: 7 + }'), /form\/unit/, 6],
  'a length and an angle': [SOUND.replace('depth: 7 }', 'depth: 7 mm + 3° }'), /form\/unit/, 6],
  'a feature that is not there': [SOUND.replace('[lock]', '[lok]'), /form\/unknown-name/, 18],
  'a broken set-up': [SOUND.replace('  second:\n    up: front', '  second up: front'), /form\/schema/, 14],
  'a set-up without cuts': [SOUND.replace('    cuts: [lock]\n', ''), /form\/schema/, 14],
  'set-ups in a list': [
    SOUND.replace(/setups:[\s\S]*/, 'setups:\n  - { up: top, cuts: [spike] }\n'),
    /form\/schema/,
    9,
  ],
  'a key that stands there twice': [`${SOUND}setups:\n  third: { up: top, cuts: [spike] }\n`, /form\/schema/, 19],
  'a bracket that is left open': [SOUND.replace('cuts: [spike]', 'cuts: [spike'), /form\/schema/, 13],
  'a thread that no table has': [SOUND.replace('diameter: 4, depth', 'thread: M3.4, depth'), /thread\/unknown/, 7],
  'a value that is a comment': [SOUND.replace('depth: 7 }', 'depth: #7\n    }'), /form\//, 6],
};

describe('scribeline plan', function () {
  this.timeout(120_000);
  let folder: string;
  const plan = (text: string, ...more: string[]) => {
    writeFileSync(join(folder, 'foot.part.yaml'), text);
    return run(['plan', 'foot.part.yaml', ...more], folder);
  };
  const written = () => readFileSync(join(folder, 'foot.part.yaml'), 'utf8');
  beforeEach(() => {
    folder = makeFolder({});
  });
  afterEach(() => dropFolder(folder));

  for (const [what, [text, rule, line]] of Object.entries(UNREAD))
    it(`writes nothing over ${what}, says which line, and 2; without --write 1`, async () => {
      const { status, out, err } = await plan(text, '--write');
      assert.equal(written(), text);
      assert.equal(status, 2, out + err);
      assert.match(err, rule);
      assert.match(err, new RegExp(`line ${line}: `));
      const told = await plan(text);
      assert.equal(told.status, 1, told.out);
      for (const said of [out, told.out]) {
        assert.doesNotMatch(said, /\b0 set-ups|Take the plan|Fewer are impossible/);
        assert.match(said, /without what could not be read: line \d+: /);
      }
      const checked = await run(['check', 'foot.part.yaml'], folder);
      assert.doesNotMatch(checked.out, /setup\/more-than-needed/);
    });

  it('says that there is nothing to cut, not that no set-up would do', async () => {
    for (const text of [HEAD, HEAD + SETUPS.replace(/cuts: \[\w+\]/g, 'cuts: []')]) {
      const { out, err } = await plan(text, '--write');
      assert.equal(written(), text);
      assert.match(out, /nothing of it is to be cut/);
      assert.doesNotMatch(`${out}${err}${(await run(['check', '.'], folder)).out}`, /\b0 (set-ups|would do)/);
    }
  });

  it('keeps a set-up’s comments, and says when there is nothing to change', async () => {
    const first = await plan(SOUND, '--write');
    assert.equal(first.status, 0, first.err);
    assert.match(written(), /# took an evening, do not touch/);
    const after = written();
    const again = await plan(after, '--write');
    assert.equal(again.status, 0);
    assert.match(again.err, /has this plan already/);
    assert.doesNotMatch(again.out, /Take the plan|As written/);
    assert.equal(written(), after);
  });

  it('keeps the notes of set-ups, with the set-up or as a comment', async () => {
    const noted = SOUND.replace('cuts: [spike]\n', "cuts: [spike]\n    note: 'deburr first: # 4 file'\n").replace(
      'cuts: [lock]\n',
      'cuts: [lock]\n    note: |\n      square it up,\n      then the drill\n',
    );
    assert.equal((await plan(noted, '--write')).status, 0);
    assert.match(written(), /cuts: \[spike\]\n {4}note: "deburr first: # 4 file"\n/);
    assert.match(written(), /note: "square it up,\\nthen the drill"\n/);
    const other = noted.replaceAll('second:', 'last-of-all:');
    assert.equal((await plan(other, '--write')).status, 0);
    assert.match(written(), /\n {2}# last-of-all: square it up,\n {2}# last-of-all: then the drill\n {2}first:\n/);
    assert.equal((await plan(written(), '--write')).status, 0);
    assert.match(written(), /# last-of-all: then the drill/);
  });

  it('appends to no text that says it has ended', async () => {
    const ended = `${HEAD}${FEATURES}...\n`;
    const { status, err } = await plan(ended, '--write');
    if (status === 0) assert.match(written(), /setups:[\s\S]*\.\.\./);
    else {
      assert.equal(written(), ended);
      assert.match(err, /could not be read/);
      assert.equal(status, 2);
    }
  });

  it('writes into no text that is one line of braces, and says so', async () => {
    const flow = `{ part: foot, units: mm, material: aluminium-6061-t6, body: { x: 60, y: 40, z: 16 }, features: { spike: { kind: hole, face: top, at: { x: center, y: center }, diameter: 8, depth: 7 } } }\n`;
    const { status, err } = await plan(flow, '--write');
    assert.equal(status, 2);
    assert.match(err, /braces/);
    assert.equal(written(), flow);
  });

  it('as JSON: minutes, set-ups and choices, and nothing else on standard output', async () => {
    const lid = `${HEAD.replace('z: 16', 'z: 8')}features:
  l: { kind: step, face: top, along: left, width: 6, depth: 4 }
  k: { kind: step, face: top, along: back, width: 6, depth: 4 }
`;
    const { status, out } = await plan(lid, '--format', 'json');
    assert.equal(status, 0);
    const told = JSON.parse(out) as { format: number; files: Record<string, unknown>[] };
    assert.equal(told.format, 1);
    const file = told.files[0]!;
    assert.equal(file.set_ups, (file.setups as unknown[]).length);
    assert.deepEqual(
      (file.choices as { set_ups: number; instead_of: { set_ups: number } }[]).map((c) => [
        c.set_ups,
        c.instead_of.set_ups,
      ]),
      [[1, 2]],
    );
    assert.match(String((file.others as string[]).join(' ')), /enough instead of 2/);
  });
});
