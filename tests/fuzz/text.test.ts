/** Hostile and damaged texts: reading never throws, its places lie in the text, and it says something of what is bad. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parseDimension } from '../../server/src/text/dimension';
import { applyEdits, locateEdits, setText } from '../../server/src/text/edit';
import { evaluate, toLength } from '../../server/src/text/expression';
import { readText } from '../../server/src/text/read';
import type { TextNode, TextTree } from '../../server/src/text/tree';
import { changed, changes, PART, partOf } from '../text/samples';
import { draws, patience } from './runs';

/** Every place of a tree lies in its text, in order. */
function check(tree: TextTree): void {
  const inside = (span: TextNode['span'], what: string) => {
    const { start, end } = tree.locate(span);
    assert.ok(start >= 0 && start <= end && end <= tree.text.length + 1, `${what}: ${start}–${end}`);
  };
  for (const p of tree.problems) {
    inside(p.span, p.code);
    assert.ok(p.message.length > 20 && /[.`…"]$/.test(p.message), p.message);
  }
  const visit = (node: TextNode | undefined): void => {
    if (!node) return;
    inside(node.span, node.type);
    if (node.type === 'list') node.items.forEach(visit);
    else if (node.type === 'map') {
      for (const entry of node.entries) {
        inside(entry.span, 'entry');
        visit(entry.key);
        visit(entry.value);
      }
    }
  };
  visit(tree.root);
}

describe('reading hostile texts', function () {
  this.timeout(patience(120_000));

  it('survives random characters', () => {
    const text = fc.oneof(
      fc.string({ unit: 'binary', maxLength: 200 }),
      fc.string({ unit: fc.constantFrom(...'ab: \n\t{}[],#&*!|>\'"%@-?.<\r\\~0'), maxLength: 120 }),
    );
    fc.assert(
      fc.property(text, (t) => check(readText(t))),
      draws(61, 500),
    );
  });

  it('survives random bytes read as UTF-8', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => check(readText(new TextDecoder().decode(bytes)))),
      draws(62, 300),
    );
  });

  it('survives damage to a real part, and each step after the other', () => {
    fc.assert(
      fc.property(fc.array(changes, { minLength: 1, maxLength: 10 }), (all) => {
        let tree = readText(PART);
        for (const change of all) {
          tree = readText(changed(tree.text, change), tree);
          check(tree);
        }
      }),
      draws(63, 30),
    );
  });

  it('edits damaged parts without throwing, and touches nothing else', () => {
    fc.assert(
      fc.property(fc.array(changes, { minLength: 1, maxLength: 4 }), (all) => {
        const tree = readText(all.reduce(changed, PART));
        if (!tree.root) return;
        const edits = locateEdits(tree, setText(tree, tree.root, 'units', 'in'));
        const result = applyEdits(tree.text, edits);
        const kept = edits.reduce((n, e) => n - (e.end - e.start), tree.text.length);
        assert.equal(result.length, kept + edits.reduce((n, e) => n + e.newText.length, 0));
      }),
      draws(64, 60),
    );
  });

  const bombs: [string, string, string][] = [
    [
      'an alias bomb',
      `a: &a [x, x]\n${Array.from({ length: 60 }, (_, i) => `b${i}: &b${i} [*a, *a, *a]\n`).join('')}`,
      'anchor',
    ],
    ['a nest of aliases', `a: &a [${'*a, '.repeat(20000)}x]\n`, 'anchor'],
    ['open brackets', '['.repeat(300000), 'too-deep'],
    ['open brackets in a value', `a: ${'{b: '.repeat(100000)}`, 'too-deep'],
    ['dashes', `a:\n  ${'- '.repeat(100000)}`, 'too-deep'],
    ['5 MB of a part', partOf(25000).padEnd(5e6, ' '), 'too-large'],
    ['5 MB of one letter', 'a'.repeat(5e6), 'too-large'],
    ['5 MB of line ends', '\n'.repeat(5e6), 'too-large'],
    ['a quotation mark at the top', `a: "\n${PART}`, 'syntax'],
    ['a brace at the top', `a: {\n${PART}`, 'syntax'],
    ['merge keys', `a:\n${'  <<: { x: 1 }\n'.repeat(500)}`, 'merge-key'],
    ['one key over and over', 'a: 1\n'.repeat(3000), 'duplicate-key'],
    ['half characters', `a: ${'\ud83d'.repeat(1000)}\n`, 'surrogate'],
  ];
  for (const [name, text, code] of bombs) {
    it(`answers ${name}`, () => {
      const tree = readText(text);
      check(tree);
      assert.ok(
        tree.problems.some((p) => p.code === code),
        JSON.stringify(tree.problems.slice(0, 3)),
      );
    });
  }
  it('tells large things in one message', () => {
    for (const [, text] of bombs.filter((b) => b[2].startsWith('too-')))
      assert.equal(readText(text).problems.length, 1);
  });
});

describe('hostile dimensions', () => {
  const scope = { unitMm: 25.4, lookup: () => ({ dimension: 'length', value: 3 }) as const };
  const judge = (source: string) => {
    const parsed = parseDimension(source);
    const answer = parsed.ok ? evaluate(parsed.dimension.expression, scope) : parsed;
    if (!answer.ok) {
      assert.ok(answer.from >= 0 && answer.from < answer.to && answer.to <= Math.max(1, source.length), source);
      assert.ok(answer.message.length > 10);
      return undefined;
    }
    assert.ok(Number.isFinite(answer.value.value), source);
    const length = toLength(answer.value, scope.unitMm);
    return length.ok ? length.value : undefined;
  };
  it('are refused or finite', () => {
    const unit = fc.constantFrom(
      ...'0 1 9 . / + - * ( ) , ± ° " e E H7 g6 mm in deg a-b body.x min( sqrt( tan( 1e308 NaN ∞ ² µm'.split(' '),
      ' ',
      ' ',
    );
    const sources = fc.oneof(fc.string({ unit, maxLength: 12 }), fc.string({ unit: 'binary', maxLength: 20 }));
    fc.assert(
      fc.property(sources, (source) => void judge(source)),
      draws(65, 3000),
    );
  });
  it('that are no sizes are refused', () => {
    for (const source of [
      ...['NaN', 'Infinity', '-Infinity', '.nan', '.inf', '1e308', '1e308*10', '1e999', '-1e308 - 1e308', '0/0'],
      ...['1e6', '5000 in', '1/0', 'sqrt(-1)', 'tan(90)', '1e308 * a / 1e308', 'a * a', '0x1F', '1_000', '∞'],
    ]) {
      assert.equal(judge(source), undefined, source);
    }
  });
  it('end quickly when they are long or nested', () => {
    for (const source of ['('.repeat(900), '-'.repeat(900), '1+'.repeat(450), '1 '.repeat(499), 'min('.repeat(200)]) {
      assert.equal(judge(source), undefined);
    }
    assert.equal(judge(`${'1+'.repeat(450)}1`), 451 * 25.4);
  });
});
