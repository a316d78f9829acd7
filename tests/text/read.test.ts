/** Reading documents: the tree, and what is said of each thing that is wrong. */
import assert from 'node:assert/strict';
import { parseDocument } from 'yaml';
import { MAX_LENGTH, readingText, readText } from '../../server/src/text/read';
import { at, descend, entry, type MapNode, type ScalarNode, type TextTree } from '../../server/src/text/tree';
import { PART, partOf } from './samples';

/** `code "marked text"` of every problem. */
function faults(text: string): string[] {
  const tree = readText(text);
  return tree.problems.map((p) => {
    const { start, end } = tree.locate(p.span);
    assert.ok(start <= end && end <= text.length + 1, `${p.code}: ${start}–${end}`);
    return `${p.code} ${JSON.stringify(text.slice(start, end))}`;
  });
}
function message(text: string): string {
  const [first, ...more] = readText(text).problems;
  assert.ok(first && more.length === 0, `${text}: ${more.length + (first ? 1 : 0)} problems`);
  return first.message;
}
const scalar = (tree: TextTree, ...path: (string | number)[]) => descend(tree.root, path) as ScalarNode;
const written = (tree: TextTree, node: { span: ScalarNode['span'] }) => {
  const { start, end } = tree.locate(node.span);
  return tree.text.slice(start, end);
};

describe('the tree', () => {
  it('has values, sources and places', () => {
    const tree = readText(PART);
    assert.deepEqual(tree.problems, []);
    const diameter = scalar(tree, 'features', 'bearing-seat', 'diameter');
    assert.equal(diameter.source, '22 H7');
    assert.equal(written(tree, diameter), '22 H7');
    assert.equal(diameter.span.block, 'features/bearing-seat');
    assert.equal(scalar(tree, 'parameters', 'pitch').value, 36);
    assert.equal(scalar(tree, 'features', 'mount', 'note').value, 'two of them, # not a comment tapped by hand\n');
    assert.equal(scalar(tree, 'features', 'lightening', 'size', 'y').value, 24);
    assert.equal(scalar(tree, 'accept', 0, 'because').value, 'long: drill is borrowed');
    assert.equal(scalar(tree, 'setups', 'first', 'cuts', 1).value, 'mount');
  });
  it('has maps that reach from their first key to their last value', () => {
    const tree = readText('# top\na: 1\nf:\n  x: 1\n\n  y:\n    z: 2 # end\n# bottom\n');
    assert.equal(written(tree, tree.root!), 'a: 1\nf:\n  x: 1\n\n  y:\n    z: 2');
    assert.equal(written(tree, at(tree.root, 'f')!), 'x: 1\n\n  y:\n    z: 2');
    assert.equal(written(tree, entry(tree.root, 'f')!), 'f:\n  x: 1\n\n  y:\n    z: 2');
    assert.deepEqual(
      (at(tree.root, 'f') as MapNode).entries.map((e) => e.key.value),
      ['x', 'y'],
    );
  });
  it('keeps what is written of odd scalars', () => {
    const tree = readText(`a: 007\nb: "22 H7"\nc: 'it''s'\nd: 1e3\ne: ~\nf:\ng: .nan\n`);
    const [a, b, c, d, e] = ['a', 'b', 'c', 'd', 'e'].map((key) => scalar(tree, key));
    assert.deepEqual([a?.value, a?.source, b?.value, b?.source, b?.quoted], [7, '007', '22 H7', '22 H7', true]);
    assert.deepEqual([c?.value, c?.source, d?.value, d?.source], ["it's", "it''s", 1000, '1e3']);
    assert.deepEqual([e?.value, e?.source, entry(tree.root, 'f')?.value], [null, '~', undefined]);
    assert.equal(scalar(tree, 'g').source, '.nan');
  });
  it('names the blocks, the second of a name with a number', () => {
    const tree = readText('b: 1\nf:\n  m: 1\n  m: 2\nf:\n  m: 3\n');
    assert.deepEqual([...tree.blocks.keys()], ['', 'b', 'f', 'f/m', 'f/m#2', 'f#2', 'f#2/m']);
    assert.deepEqual(faults(tree.text), ['duplicate-key "m"', 'duplicate-key "f"']);
    assert.equal(scalar(tree, 'f', 'm').value, 1, 'the first counts');
    assert.deepEqual(tree.locate({ block: 'gone', from: 3, to: 5 }), { start: 0, end: 0 });
  });
  it('reads CRLF, a byte order mark, and documents of nothing', () => {
    const tree = readText('\ufeffpart: a\r\nfeatures:\r\n  m:\r\n    depth: 22 H7 # x\r\n');
    assert.deepEqual(tree.problems, []);
    assert.equal(written(tree, scalar(tree, 'features', 'm', 'depth')), '22 H7');
    assert.equal(written(tree, entry(tree.root, 'part')!.key), 'part');
    for (const empty of ['', '\n\n', '# only a comment', '\ufeff', '\r\n# x\r\n']) {
      const nothing = readText(empty);
      assert.equal(nothing.root, undefined);
      assert.deepEqual(nothing.problems, []);
    }
  });
});

describe('what is taken over', () => {
  const typed = (text: string, find: string, replace: string) => {
    const before = readText(text);
    const after = readText(text.replace(find, replace), before);
    return { before, after };
  };
  it('is everything where nothing changed', () => {
    const tree = readText(PART);
    assert.equal(readText(PART, tree), tree);
  });
  it('is every feature but the one that is typed in', () => {
    const { before, after } = typed(PART, 'thread: M5', 'thread: M6');
    const value = (tree: TextTree, name: string) => descend(tree.root, ['features', name]);
    assert.equal(value(after, 'bearing-seat'), value(before, 'bearing-seat'));
    assert.equal(value(after, 'lightening'), value(before, 'lightening'));
    assert.notEqual(value(after, 'mount'), value(before, 'mount'));
    assert.equal(at(after.root, 'stock'), at(before.root, 'stock'));
    assert.equal(at(after.root, 'setups'), at(before.root, 'setups'));
    const lightening = scalar(after, 'features', 'lightening', 'depth');
    assert.equal(written(after, lightening), '9', 'though it stands elsewhere now');
  });
  it('is the whole map when the change is above it', () => {
    const { before, after } = typed(PART, 'revision: B', 'revision: B2  # longer');
    assert.equal(entry(after.root, 'features'), entry(before.root, 'features'));
  });
  it('survives a moment in which the text cannot be cut', () => {
    const before = readText(PART);
    const broken = readText(`? x\n${PART}`, before);
    assert.deepEqual([...broken.blocks.keys()], ['']);
    const after = readText(`z: 1\n${PART}`, broken);
    assert.equal(at(after.root, 'features'), at(before.root, 'features'));
  });
  it('is found again when features change places', () => {
    const text = 'f:\n  a:\n    x: 1\n  b:\n    x: 2\n';
    const before = readText(text);
    const after = readText('f:\n  b:\n    x: 2\n  a:\n    x: 1\n', before);
    assert.equal(descend(after.root, ['f', 'a']), descend(before.root, ['f', 'a']));
    assert.deepEqual(
      (at(after.root, 'f') as MapNode).entries.map((e) => e.key.value),
      ['b', 'a'],
    );
  });
  it('stays right in a large part', () => {
    const text = partOf(120);
    const before = readText(text);
    const after = readText(text.replace('place 60', 'place sixty'), before);
    const changed = (at(after.root, 'features') as MapNode).entries.filter(
      (e, i) => e !== (at(before.root, 'features') as MapNode).entries[i],
    );
    assert.deepEqual(
      changed.map((e) => e.key.value),
      ['hole-60'],
    );
  });
});

describe('what is wrong with a text', () => {
  const cases: [string, string, string[], RegExp?][] = [
    [
      'a comment where a value was meant',
      'thread: #10-24\nb: 1\n',
      ['swallowed-comment "#10-24"'],
      /quotes: `"#10-24"`/,
    ],
    ['the same in a feature', 'f:\n  m:\n    thread: #10-24 UNC\n', ['swallowed-comment "#10-24 UNC"']],
    ['the same in braces', 'f: { thread: #10-24, depth: 3 }\nb: 1\n', ['swallowed-comment "#10-24"']],
    ['the same with a comment behind it', 'thread: #10-24 UNC  # fine\n', ['swallowed-comment "#10-24 UNC"']],
    ['the same in a list', 'f:\n- #10-24\n- b\n', ['swallowed-comment "#10-24"']],
    ['no value, and a proper comment', 'a: # later\nb: #\nc: 1 #10\n', []],
    ['a head with a comment that is stuck to its sign', 'f: #all\n  m: 1\n', []],
    ['duplicate keys, near', 'a: { x: 1, x: 2 }\n', ['duplicate-key "x"'], /`x` stands here twice/],
    ['duplicate keys, far', 'a: 1\nb: 2\na: 3\n', ['duplicate-key "a"']],
    ['an anchor and its aliases, told once', 'a: &x 1\nb: *x\nc: *x\n', ['anchor "&x"']],
    ['a merge key', 'a:\n  <<: *x\n  b: 1\n', ['merge-key "<<"'], /Write the entries here/],
    ['a tag', 'a: !!str 5\n', ['tag "!!str"']],
    ['a tag of nobody', 'a:\n  b: !mine { x: 1 }\n', ['tag "!mine"']],
    ['a tab as indentation', 'f:\n\ta: 1\n', ['tab "\\t"'], /Indent with spaces/],
    ['a tab after spaces', 'f:\n  m:\n  \tkind: hole\n', ['tab "\\t"']],
    ['tabs that do no harm', 'a:\t1\t# x\nb: |\n  x\n  \ty\n', []],
    ['a complex key', '? a\n: 1\n', ['key "?"'], /plain word/],
    ['a list as key', '[a, b]: 1\n', ['key "[a, b]"']],
    ['an empty key', 'a: { : 1 }\n', ['key ":"']],
    ['two documents', 'a: 1\n---\nb: 2\n', ['documents "---"'], /one document/],
    ['a directive', '%YAML 1.2\n---\na: 1\n', ['documents "%YAML 1.2"'], /directives/],
    ['half a character', 'a: "\ud83d"\n', ['surrogate "\\ud83d"'], /lone surrogate/],
    ['half a character in a comment at the top', '# \udc00\na: 1\n', ['surrogate "\\udc00"']],
    ['a control character', 'a: x\u0000y\n', ['syntax "\\u0000"'], /U\+0000/],
    ['a lone carriage return', 'a: 1\rb: 2\n', ['syntax "\\r"'], /U\+000D/],
    ['a list for a document', '- a\n- b\n', ['syntax "- a\\n- b"'], /`key: value`/],
    ['a word for a document', 'hello\n', ['syntax "hello"'], /no colon/],
    ['a word on its way to a key', 'a: 1\ntol\nb: 2\n', ['syntax "tol"'], /`tol` has no colon/],
    ['the same in a map', 'f:\n  m:\n    x: 1\n  mou\ng: 1\n', ['syntax "mou"'], /`mou` has no colon/],
    ['the same in a feature', 'f:\n  m:\n    x: 1\n    dep\n  n: 1\n', ['syntax "dep"'], /`dep` has no colon/],
    ['a colon without its space', 'a:1\nb: 2\n', ['syntax "a:1"'], /space is missing after the colon\. Write `a: 1`/],
    ['the same in braces', 'a: {x:1}\n', ['syntax "x:1"'], /Write `x: 1`/],
    ['a brace that is not closed', 'a: { x: 1\nb: 2\nc: 3\n', ['syntax "{"'], /`\{` has no closing bracket\. Add `\}`/],
    [
      'a bracket that is not closed',
      'f:\n  m: [1, 2\n  n: 3\n',
      ['syntax "["'],
      /`\[` has no closing bracket\. Add `\]`/,
    ],
    ['a brace too many', 'a: { x: 1 }}\n', ['syntax "}"'], /no opening/],
    ['a comma too many', 'a: { x: 1,, y: 2 }\n', ['syntax ", y: 2 }"'], /comma too many/],
    ['a quotation mark that is not closed', 'a: "x\nb: 2\n', ['syntax "\\""'], /not closed/],
    ['an unknown escape', 'a: "x\\q"\n', ['syntax "\\\\q\\""'], /backslash/],
    ['two colons', 'a: b: c\n', ['syntax "b: c"'], /two colons/],
    ['a sign that no value begins with', 'a: @x\n', ['syntax "@x"'], /quotes/],
    ['a list item on the line of its key', 'a: - b\n', ['syntax "- b"'], /line of its own/],
    ['an entry too far left', 'f:\n    a: 1\n  b: 2\n', ['syntax "b: 2"'], /indented differently/],
    ['an entry too far right', 'a: 1\n  b: 2\n', ['syntax "b: 2"'], /indented|colon/],
  ];
  for (const [name, text, expected, said] of cases) {
    it(`${name}: ${JSON.stringify(text)}`, () => {
      assert.deepEqual(faults(text), expected);
      if (said) assert.match(message(text), said);
    });
  }

  it('is too large: one message, and nothing read', () => {
    const tree = readText(`part: a\n${'# x\n'.repeat(MAX_LENGTH / 4)}`);
    assert.deepEqual(
      tree.problems.map((p) => p.code),
      ['too-large'],
    );
    assert.equal(tree.root, undefined);
    assert.match(tree.problems[0]!.message, /0\.6 million characters/);
  });
  it('is nested too deep: one message', () => {
    for (const deep of [
      `a: ${'['.repeat(5000)}`,
      `a: ${'{ a: '.repeat(200)}`,
      `a:\n${'- '.repeat(500)}x\n`,
      Array.from({ length: 300 }, (_, i) => `${' '.repeat(i)}a:\n`).join(''),
    ]) {
      const tree = readText(deep);
      assert.deepEqual(
        tree.problems.map((p) => p.code),
        ['too-deep'],
        deep.slice(0, 20),
      );
    }
  });
  it('costs the other blocks nothing', () => {
    const tree = readText(PART.replace('{ x: center, z: 8 }', '{ x: center, z: 8'));
    assert.equal(tree.problems.length, 1);
    assert.equal(scalar(tree, 'features', 'lightening', 'depth').value, 9);
    assert.equal(scalar(tree, 'features', 'mount', 'thread').value, 'M5', 'not even in the same feature');
  });
  it('is read in steps where it is one long piece, by whoever lets others have their turn; the tree is the same', () => {
    const holes = Array.from({ length: 200 }, (_, i) => `h${i}: { kind: hole, at: { x: ${i} }, thread: "M5" }`);
    const line = `part: a\nfeatures: {${holes.join(', ')}}\n`;
    for (const text of [
      line,
      `${line}# ] {\n`,
      line.replace('h7:', 'h7: ['),
      line.replaceAll('}, h', '}, # off\n  h'),
    ]) {
      const work = readingText(text);
      let steps = 0;
      let next = work.next();
      for (; !next.done; next = work.next()) steps++;
      assert.ok(steps > 10, `${steps} steps`);
      const { root, problems } = readText(text);
      assert.deepEqual([next.value.root, next.value.problems], [root, problems]);
      // The `yaml` package reads it as one.
      assert.deepEqual(next.value.problems.length === 0, parseDocument(text).errors.length === 0, text.slice(0, 60));
    }
  });
});
