/** Merges entry by entry: both sides' entries are kept, nothing is lost, and what both touched stands there twice. */
import assert from 'node:assert/strict';
import { readdirSync, readFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import fc from 'fast-check';
import { mergeTexts } from '../../server/src/text/merge';

const SIDES = { ours: 'ours', theirs: 'theirs' };
const BASE = `# a plate
part: plate
body: { x: 60, y: 40, z: 16 }

features:
  # the seat
  seat:
    kind: hole
    diameter: 22 H7
  tie: { kind: hole, diameter: 5.5 }
`;
const merge = (ours: string, theirs: string, base = BASE) => mergeTexts(base, ours, theirs, SIDES);

describe('merging', () => {
  it('keeps features of both sides, though their lines lie beside each other', () => {
    const ours = BASE.replace('22 H7', '24 H7');
    const theirs = `${BASE.replace('5.5', '6.6')}  new: { kind: hole, diameter: 3 }\n`;
    const { text, conflicts } = merge(ours, theirs);
    assert.deepEqual(conflicts, []);
    assert.equal(text, `${BASE.replace('22 H7', '24 H7').replace('5.5', '6.6')}  new: { kind: hole, diameter: 3 }\n`);
  });

  it('two new features at one place are both there', () => {
    const { text, conflicts } = merge(`${BASE}  a: { kind: hole }\n`, `${BASE}  b: { kind: slot }\n`);
    assert.deepEqual(conflicts, []);
    assert.ok(text.includes('  a: { kind: hole }\n') && text.includes('  b: { kind: slot }\n'));
  });

  it('one feature under two new names is a conflict, beside what stands else; the same new name is none', () => {
    const named = (name: string, more = '') => BASE.replace('  seat:', `  ${name}:`).replace('22 H7', `22 H7${more}`);
    const { text, conflicts } = merge(named('socket'), named('bore'));
    assert.deepEqual(conflicts, ['features/socket and features/bore']);
    assert.match(
      text,
      /<<<<<<< ours\n {2}# the seat\n {2}socket:\n[\s\S]*=======\n {2}# the seat\n {2}bore:\n[\s\S]*>>>>>>> theirs\n {2}tie:/,
    );
    assert.equal([...text.matchAll(/22 H7/g)].length, 2);
    assert.equal(merge(named('socket'), named('bore', ' # pressed')).conflicts.length, 1, 'changed on the way too');
    assert.deepEqual(merge(named('socket'), named('socket')), { text: named('socket'), conflicts: [] });
    const others = merge(named('socket'), `${named('socket')}  more: { kind: hole }\n`);
    assert.deepEqual([others.conflicts, others.text.includes('more')], [[], true]);
  });

  it('marks end as the lines between them do', () => {
    const crlf = (text: string) => text.replaceAll('\n', '\r\n');
    const { text } = merge(crlf(BASE.replace('22', '24')), crlf(BASE.replace('22', '26')), crlf(BASE));
    assert.doesNotMatch(text, /[^\r]\n/);
    assert.match(text, /=======\r\n/);
  });

  it('joints of a job that each side has put in are both there', () => {
    const base = 'job: set\njoints:\n  a: { pin: 4 m6x12 }\n';
    const { text, conflicts } = merge(`${base}  b: { pin: 3 m6x12 }\n`, `${base}  c: { pin: 5 m6x12 }\n`, base);
    assert.deepEqual([conflicts, /b: .*\n.*c: |c: .*\n.*b: /.test(text)], [[], true]);
  });

  it('what both changed stands there twice, and nothing else does', () => {
    const { text, conflicts } = merge(BASE.replace('22 H7', '24 H7'), BASE.replace('22 H7', '26 H7'));
    assert.deepEqual(conflicts, ['features/seat']);
    assert.match(
      text,
      /<<<<<<< ours\n {2}# the seat\n {2}seat:\n {4}kind: hole\n {4}diameter: 24 H7\n=======\n {2}# the seat\n {2}seat:\n {4}kind: hole\n {4}diameter: 26 H7\n>>>>>>> theirs\n {2}tie/,
    );
  });

  it('one took out what the other changed: told', () => {
    const without = BASE.replace(/ {2}tie:.*\n/, '');
    assert.deepEqual(merge(without, BASE.replace('5.5', '6.6')).conflicts, ['features/tie']);
    assert.equal(merge(without, BASE).text, without);
    assert.equal(merge(BASE, without).text, without);
  });

  it('every example: what one side changed comes through letter by letter', () => {
    const folder = resolve(__dirname, '../../examples/gimbal/parts');
    for (const name of readdirSync(folder)) {
      const base = readFileSync(join(folder, name), 'utf8');
      fc.assert(
        fc.property(fc.nat(base.split('\n').length - 2), fc.constantFrom(' # looked at', ''), (line, more) => {
          const lines = base.split('\n');
          lines[line] += more;
          const other = lines.join('\n');
          assert.deepEqual(merge(other, base, base), { text: other, conflicts: [] });
          assert.deepEqual(merge(base, other, base), { text: other, conflicts: [] });
          assert.deepEqual(merge(other, other, base), { text: other, conflicts: [] });
        }),
        { numRuns: 30, seed: 4 },
      );
    }
  });

  it('no line of either side is lost, whatever the texts', () => {
    const text = fc
      .array(
        fc.constantFrom(
          'part: a',
          'features:',
          '  a: 1',
          '  b: 2',
          '  c: {',
          '  }',
          '# x',
          '',
          'setups:',
          '  - a',
          '\ttab: 1',
          'é: "q: #"',
        ),
        { maxLength: 9 },
      )
      .map((lines) => lines.map((l) => `${l}\n`).join(''));
    fc.assert(
      fc.property(text, text, text, (base, ours, theirs) => {
        assert.equal(merge(ours, base, base).text, ours);
        const { text: made, conflicts } = merge(ours, theirs, base);
        // Lines that a side has and the base has not are in what was made.
        const had = new Set(base.split('\n'));
        for (const line of [...ours.split('\n'), ...theirs.split('\n')])
          assert.ok(had.has(line) || made.split('\n').includes(line), line);
        assert.equal(conflicts.length, made.split('<<<<<<< ours\n').length - 1);
      }),
      { numRuns: 500, seed: 5 },
    );
  });
});
