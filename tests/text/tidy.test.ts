/**
 * Layout: only blanks and line ends are touched. What a text says, and each of its comments, is told by the `yaml` library
 * before and after, which the formatter's own check does not ask.
 */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import fc from 'fast-check';
import { globSync } from 'tinyglobby';
import { parse, parseDocument } from 'yaml';
import { applyEdits } from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';
import { tidied, tidiedWithin } from '../../server/src/text/tidy';
import { partTexts } from '../proof/parts';
import { commentsIn } from './comments';

const LAYOUT = { step: 2, open: ['features', 'setups'] };
const EXAMPLES = globSync(['examples/gimbal/**/*.yaml', 'schemas/everyday.shop.yaml'], {
  cwd: resolve(__dirname, '../..'),
  absolute: true,
}).map((file) => ({ file, text: readFileSync(file, 'utf8') }));

function done(text: string, made: ReturnType<typeof tidied>): string {
  assert.ok('edits' in made, 'refused' in made ? `${made.refused}\n${text}` : '');
  return applyEdits(text, made.edits);
}
const tidy = (text: string) => done(text, tidied(readText(text), LAYOUT));

/** The same text as somebody in a hurry would have it, drawn from a seed. */
function untidy(text: string, seed: number): string {
  let state = seed + 1;
  const draw = (n: number) => {
    state = (state * 1103515245 + 12345) % 2147483648;
    return Math.floor(state / 65536) % n;
  };
  const wide = 1 + draw(3);
  const lines = text.split('\n').flatMap((line, i) => {
    const [, blanks = '', words = ''] = /^( *)(.*)$/.exec(line)!;
    if (words === '') return [line];
    let own = words;
    if (!/["'#|>]/.test(words)) {
      if (draw(4) === 0) own = own.replace(/: (?=\S)/, `:${' '.repeat(1 + draw(4))}`);
      if (draw(4) === 0) own = own.replace(/, /g, ` ,${' '.repeat(1 + draw(2))}`).replace(/\{ /g, '{');
      if (draw(5) === 0) own = own.replace(/ \}/g, '   }').replace(/\[/g, '[ ');
      if (draw(6) === 0) own += `${' '.repeat(1 + draw(3))}# said of line ${i}`;
      else if (draw(5) === 0) own += ' '.repeat(1 + draw(3));
    }
    const put = [' '.repeat(blanks.length * wide) + own];
    if (draw(9) === 0) put.unshift(`${' '.repeat(draw(7))}# before line ${i}`);
    if (draw(9) === 0) put.unshift('', '  ', '');
    return put;
  });
  return lines.join(draw(5) === 0 ? '\r\n' : '\n');
}

describe('layout', () => {
  it('leaves every example as it is, byte by byte, but for one that cannot be read, which it says', () => {
    const refused: string[] = [];
    for (const { file, text } of EXAMPLES) {
      const made = tidied(readText(text), LAYOUT);
      if ('refused' in made) refused.push(`${file.split('/').at(-1)}: ${made.refused}`);
      else assert.deepEqual(made.edits, [], file);
    }
    assert.equal(refused.length, 1);
    assert.match(
      refused[0]!,
      /^threads\.part\.yaml: The text was left as it is until it can be read\. `#` after a space/,
    );
  });

  it('brings examples in disorder back to what they say, with every comment, and has then nothing to do', () => {
    let changed = 0;
    for (const { file, text } of EXAMPLES) {
      if (file.endsWith('threads.part.yaml')) continue;
      for (let seed = 0; seed < 3; seed++) {
        const messy = untidy(text, seed * 7919 + text.length);
        if (parseDocument(messy).errors.length > 0) continue;
        const made = tidy(messy);
        if (made !== messy) changed++;
        assert.deepEqual(parse(made), parse(messy), file);
        assert.deepEqual(commentsIn(made), commentsIn(messy), file);
        assert.equal(tidy(made), made, `${file} ${seed}: not the same twice`);
        assert.ok(!/[ \t]\r?$/m.test(made), file);
      }
    }
    assert.ok(changed > 40, String(changed));
  });

  it('does so for drawn parts, whether their features stand in braces or in lines', () => {
    fc.assert(
      fc.property(partTexts(4), fc.nat(10_000), ({ text }, seed) => {
        const messy = untidy(text, seed);
        if (parseDocument(messy).errors.length > 0) return;
        const made = tidy(messy);
        assert.deepEqual(parse(made), parse(messy));
        assert.deepEqual(commentsIn(made), commentsIn(messy));
        assert.equal(tidy(made), made);
      }),
      { numRuns: 60, seed: 17 },
    );
  });

  it('one fact a line: a feature in braces is opened, its remark stays beside its name', () => {
    const made = tidy(
      'part: a\nfeatures:\n  mount: { kind: hole, at: {x: 1,y: 2}, depth: through }  # four of them\n  rest: { kind: hole, # odd\n    depth: 3 }\n',
    );
    assert.equal(
      made,
      'part: a\nfeatures:\n  mount: # four of them\n    kind: hole\n    at: { x: 1, y: 2 }\n    depth: through\n  rest: { kind: hole, # odd\n    depth: 3 }\n',
    );
  });

  it('remarks of several lines keep theirs; a list goes a step in', () => {
    const made = tidy(
      'part: a\nnote: |\n      two\n        lines\n\n      three\ntolerances:\n-   position: 0.1\n    of: seat\n# the end\n\n\n',
    );
    assert.equal(
      made,
      'part: a\nnote: |\n  two\n    lines\n\n  three\ntolerances:\n  - position: 0.1\n    of: seat\n# the end\n',
    );
    assert.deepEqual((parse(made) as { note: string }).note, 'two\n  lines\n\nthree\n');
  });

  it('of a range as little as says the same: its lines, or the entry, or the section', () => {
    const text = 'part:  a\nunits:  mm\nfeatures:\n    one:\n        kind:  hole\n    two:\n        kind:  hole\n';
    const within = (words: string) => {
      const at = text.indexOf(words);
      return done(text, tidiedWithin(readText(text), LAYOUT, at, at + words.length));
    };
    assert.equal(within('units:  mm'), text.replace('units:  mm', 'units: mm'));
    // Two blanks less for one key alone would be another text: the section goes with it.
    const made = within('kind:  hole\n    two');
    assert.ok(made.startsWith('part:  a\nunits:  mm\n'), made);
    assert.deepEqual(parse(made), parse(text));
  });

  it('what cannot be read is left, and why is said', () => {
    const made = tidied(readText('part: a\nbody: { x: 60, y: 40\nfeatures:\n'), LAYOUT);
    assert.ok('refused' in made);
    assert.match(made.refused, /^The text was left as it is until it can be read\. /);
  });
});
