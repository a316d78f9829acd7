/** Edits: one by one as they should look, and at random: nothing else changes, and no comment is lost. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { Parser } from 'yaml';
import * as edit from '../../server/src/text/edit';
import { readText } from '../../server/src/text/read';
import {
  at,
  entry,
  type ListNode,
  type MapNode,
  type SpanEdit,
  type TextNode,
  type TextTree,
} from '../../server/src/text/tree';
import { scalarText } from '../../server/src/text/write';
import { documents, PART } from './samples';

/** Makes edits on a text. */
function made(text: string, make: (tree: TextTree) => SpanEdit[]): string {
  const tree = readText(text);
  return edit.applyEdits(text, edit.locateEdits(tree, make(tree)));
}
const root = (tree: TextTree) => tree.root as MapNode;
const map = (tree: TextTree, key: string) => at(tree.root, key) as MapNode;
const list = (tree: TextTree, key: string) => at(tree.root, key) as ListNode;

describe('setting a value', () => {
  it('replaces a scalar and keeps the comment behind it', () => {
    assert.equal(
      made('a: 3 # three\nb: 1\n', (t) => edit.setText(t, root(t), 'a', '4.5')),
      'a: 4.5 # three\nb: 1\n',
    );
  });
  it('fills in a key that has no value', () => {
    assert.equal(
      made('a:   # later\n', (t) => edit.setText(t, root(t), 'a', '22 H7')),
      'a: 22 H7   # later\n',
    );
    assert.equal(
      made('a: { b:, c: 1 }', (t) => edit.setText(t, map(t, 'a'), 'b', '2')),
      'a: { b: 2, c: 1 }',
    );
  });
  it('adds the key where there is none', () => {
    assert.equal(
      made('a: { b: 1 }', (t) => edit.setText(t, map(t, 'a'), 'c', '2')),
      'a: { b: 1, c: 2 }',
    );
  });
  it('puts a value behind the colon instead of lines', () => {
    const text = 'a: # why\n- 1\n- 2 # two\nb: 1\n';
    assert.equal(
      made(text, (t) => edit.setText(t, root(t), 'a', '[3]')),
      'a: [3] # why\nb: 1\n',
    );
  });
  it('replaces a text of several lines', () => {
    assert.equal(
      made('a: |\r\n  x\r\n  y\r\nb: 1\r\n', (t) => edit.setText(t, root(t), 'a', 'z')),
      'a: z\r\nb: 1\r\n',
    );
  });
});

describe('adding', () => {
  it('puts a key on a line after the last entry, below its comment', () => {
    const text = 'f:\n    a: 1 # one\n# left\ng: 2\n';
    assert.equal(
      made(text, (t) => edit.addText(t, map(t, 'f'), 'b', '2')),
      'f:\n    a: 1 # one\n    b: 2\n# left\ng: 2\n',
    );
  });
  it('goes after a nested last entry, and keeps the line end of the document', () => {
    const text = 'f:\r\n  a:\r\n    x: 1\r\n';
    const expected = 'f:\r\n  a:\r\n    x: 1\r\n  b: { y: 2 }\r\n';
    assert.equal(
      made(text, (t) => edit.addText(t, map(t, 'f'), 'b', '{ y: 2 }')),
      expected,
    );
  });
  it('goes after a text in `|` style without adding to it', () => {
    assert.equal(
      made('f:\n  a: |\n    x\n\ng: 1\n', (t) => edit.addText(t, map(t, 'f'), 'b', '2')),
      'f:\n  a: |\n    x\n  b: 2\n\ng: 1\n',
    );
  });
  it('works in a text without a last line end', () => {
    assert.equal(
      made('f:\n  a: 1', (t) => edit.addText(t, map(t, 'f'), 'b', '2')),
      'f:\n  a: 1\n  b: 2',
    );
  });
  it('writes into braces and brackets', () => {
    assert.equal(
      made('a: {}', (t) => edit.addText(t, map(t, 'a'), 'b', '{ c: 1 }')),
      'a: { b: { c: 1 } }',
    );
    assert.equal(
      made('a: [1, 2] # x', (t) => edit.addItem(t, list(t, 'a'), 3)),
      'a: [1, 2, 3] # x',
    );
    assert.equal(
      made('a:\n- 1 # x\nb: 1', (t) => edit.addItem(t, list(t, 'a'), 3)),
      'a:\n- 1 # x\n- 3\nb: 1',
    );
  });
  it('follows the indentation of the document', () => {
    assert.equal(
      made('p:\n    a: 1\n', (t) => edit.addText(t, map(t, 'p'), 'b', '2')),
      'p:\n    a: 1\n    b: 2\n',
    );
  });
});

describe('removing', () => {
  it('takes whole lines and leaves every comment, at the entry’s own depth', () => {
    const text = 'f:\n  a: 1 # one\n  # about b\n  b:\n    x: 1 # in\n  c: 3\n';
    const without = (key: string) => made(text, (t) => edit.removeEntry(t, map(t, 'f'), entry(map(t, 'f'), key)!));
    assert.equal(without('a'), 'f:\n  # one\n  # about b\n  b:\n    x: 1 # in\n  c: 3\n');
    assert.equal(without('b'), 'f:\n  a: 1 # one\n  # about b\n  # in\n  c: 3\n');
    assert.equal(without('c'), text.replace('  c: 3\n', ''));
  });
  it('takes no text for a comment, and keeps the line end of the document', () => {
    const without = (text: string) => made(text, (t) => edit.removeEntry(t, map(t, 'f'), entry(map(t, 'f'), 'a')!));
    assert.equal(without('f:\r\n  a: "x # y" # z\r\n  b: 1\r\n'), 'f:\r\n  # z\r\n  b: 1\r\n');
    assert.equal(without('f:\n  a: |\n    x # y\n    z\n  b: 1\n'), 'f:\n  b: 1\n');
    assert.equal(without('f:\n  b: 1\n  a: 2 # last'), 'f:\n  b: 1\n  # last\n');
  });
  it('takes the comma along in braces', () => {
    const without = (text: string, key: string) =>
      made(text, (t) => edit.removeEntry(t, map(t, 'f'), entry(map(t, 'f'), key)!));
    assert.equal(without('f: { a: 1, b: 2, c: 3 }', 'a'), 'f: { b: 2, c: 3 }');
    assert.equal(without('f: { a: 1, b: 2, c: 3 }', 'b'), 'f: { a: 1, c: 3 }');
    assert.equal(without('f: { a: 1, b: 2, c: 3 }', 'c'), 'f: { a: 1, b: 2 }');
    assert.equal(without('f: { a: 1 } # why', 'a'), 'f: {} # why');
    assert.equal(without('f: { a: 1, # x, y\n  b: 2 # z\n  }', 'b'), 'f: { a: 1 # x, y\n   # z\n  }');
  });
  it('takes items out of lists', () => {
    const without = (text: string, i: number) => made(text, (t) => edit.removeItem(t, list(t, 'f'), i));
    assert.equal(without('f:\n  - a # 1\n  - b\ng: 1', 0), 'f:\n  # 1\n  - b\ng: 1');
    assert.equal(without('f: [a, b, c]', 1), 'f: [a, c]');
    assert.equal(without('f: [a]', 0), 'f: []');
  });
  it('moves the next entry up behind a dash', () => {
    const text = 'f:\n- a: 1\n  b: 2\n';
    const first = (t: TextTree) => list(t, 'f').items[0] as MapNode;
    assert.equal(
      made(text, (t) => edit.removeEntry(t, first(t), first(t).entries[0]!)),
      'f:\n- b: 2\n',
    );
    assert.equal(
      made('f:\n- a: 1\n', (t) => edit.removeEntry(t, first(t), first(t).entries[0]!)),
      'f:\n- {}\n',
    );
  });
});

describe('quoting', () => {
  it('writes any string so that it reads back', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string(),
          fc.string({ unit: 'binary' }),
          fc.constantFrom('22 H7', '#10-24', 'a: b', '1/4 in', '- x', '"q"'),
        ),
        (s) => {
          for (const text of [`a: ${scalarText(s)}\n`, `{ ${scalarText(`k${s}`)}: [${scalarText(s)}] }\n`]) {
            const tree = readText(text);
            assert.deepEqual(tree.problems, [], text);
            const found = tree.root?.flow ? (tree.root.entries[0]!.value as ListNode).items[0] : at(tree.root, 'a');
            assert.ok(found?.type === 'scalar');
            assert.equal(found.quoted ? found.value : found.source, s);
          }
        },
      ),
      { seed: 5, numRuns: 120 },
    );
  });
  it('refuses edits that overlap', () => {
    const edits = [
      { start: 0, end: 2, newText: '' },
      { start: 1, end: 3, newText: '' },
    ];
    assert.throws(() => edit.applyEdits('abcd', edits), RangeError);
  });
});

/** Values without places: [key, value] pairs, lists, scalars as text. */
type Model = string | undefined | { map: [string, Model][] } | { list: Model[] };
function model(node: TextNode | undefined): Model {
  if (!node) return undefined;
  if (node.type === 'list') return { list: node.items.map(model) };
  if (node.type === 'map') return { map: node.entries.map((e) => [e.key.source, model(e.value)]) };
  return node.quoted ? `"${String(node.value)}` : node.source === '' ? undefined : node.source;
}

/** The comments of a text, as the YAML tokens tell them. */
function comments(text: string): string[] {
  const found: string[] = [];
  const visit = (token: unknown): void => {
    if (Array.isArray(token)) {
      for (const one of token) visit(one);
      return;
    }
    if (!token || typeof token !== 'object') return;
    const { type, source } = token as { type?: string; source?: string };
    if (type === 'comment' && source) found.push(source.trimEnd());
    for (const part of ['start', 'key', 'sep', 'value', 'items', 'end', 'props'])
      visit((token as Record<string, unknown>)[part]);
  };
  for (const token of new Parser().parse(text)) visit(token);
  return found.sort();
}

function maps(node: TextNode | undefined): MapNode[] {
  if (!node || node.type === 'scalar') return [];
  if (node.type === 'list') return node.items.flatMap(maps);
  return [node, ...node.entries.flatMap((e) => maps(e.value))];
}

/** The model with the `n`th map (counted as `maps` does) changed. */
function changedModel(whole: Model, n: number, change: (entries: [string, Model][]) => void): Model {
  let count = -1;
  const copy = (m: Model): Model => {
    if (typeof m !== 'object') return m;
    if ('list' in m) return { list: m.list.map(copy) };
    const mine = ++count === n;
    const entries = m.map.map(([k, v]): [string, Model] => [k, copy(v)]);
    if (mine) change(entries);
    return { map: entries };
  };
  return copy(whole);
}

/** An emptied map in block style is a key without a value, or `{}` behind a dash: one and the same here. */
function settled(m: Model): unknown {
  if (typeof m !== 'object') return m ?? null;
  if ('list' in m) return m.list.map(settled);
  return m.map.length === 0 ? null : m.map.map(([k, v]) => [k, settled(v)]);
}

const choice = fc.record({
  map: fc.nat(),
  entry: fc.nat(),
  what: fc.constantFrom('set', 'add', 'add map', 'remove'),
});

describe('edits at random', function () {
  this.timeout(120_000);

  it('change what they should, keep all comments and add no problem', () => {
    const sound = fc.oneof(documents, fc.constant(PART)).filter((text) => {
      const tree = readText(text);
      return tree.problems.length === 0 && maps(tree.root).length > 0;
    });
    fc.assert(
      fc.property(sound, choice, (text, { map: m, entry: e, what }) => {
        const tree = readText(text);
        const all = maps(tree.root);
        const n = m % all.length;
        const node = all[n]!;
        const i = node.entries.length > 0 ? e % node.entries.length : 0;
        const one = node.entries[i];
        if (!one && !what.startsWith('add')) return;
        let edits: SpanEdit[] = [];
        let change: (entries: [string, Model][]) => void = () => {};
        if (what === 'set') {
          edits = edit.setText(tree, node, one!.key.source, '7 ±0.1');
          const first = node.entries.findIndex((x) => x.key.source === one!.key.source);
          change = (entries) => entries.splice(first, 1, [one!.key.source, '7 ±0.1']);
        } else if (what === 'add') {
          edits = edit.addText(tree, node, 'new', '3 mm');
          change = (entries) => entries.push(['new', '3 mm']);
        } else if (what === 'add map') {
          edits = edit.addText(tree, node, 'new', '{ kind: hole, at: { x: 1 } }');
          change = (entries) =>
            entries.push([
              'new',
              {
                map: [
                  ['kind', 'hole'],
                  ['at', { map: [['x', '1']] }],
                ],
              },
            ]);
        } else {
          edits = edit.removeEntry(tree, node, one!);
          change = (entries) => entries.splice(i, 1);
        }
        const result = edit.applyEdits(text, edit.locateEdits(tree, edits));
        const again = readText(result);
        assert.deepEqual(again.problems, [], result);
        assert.deepEqual(settled(model(again.root)), settled(changedModel(model(tree.root), n, change)), result);
        const lost = comments(text);
        for (const c of comments(result)) {
          const k = lost.indexOf(c);
          assert.ok(k >= 0, `a comment came from nowhere: ${c}`);
          lost.splice(k, 1);
        }
        if (what === 'remove' || what === 'set') {
          const { start, end } = tree.locate(one!.span);
          const lineEnd = text.indexOf('\n', end);
          const gone = text.slice(start, lineEnd < 0 ? undefined : lineEnd);
          for (const c of lost) assert.ok(gone.includes(c), `lost ${c}\n${text}\n--\n${result}`);
          // Whole lines leave every comment behind.
          const alone = /^ *$/.test(text.slice(text.lastIndexOf('\n', start - 1) + 1, start));
          if (what === 'remove' && !node.flow && alone) assert.deepEqual(lost, [], `${text}\n--\n${result}`);
        } else assert.deepEqual(lost, [], result);
        if (!text.includes('\r')) assert.ok(!result.includes('\r'));
        else assert.ok(!/[^\r]\n/.test(result), 'mixed line ends');
      }),
      { seed: Number(process.env.SEED ?? 42), numRuns: 80 * Number(process.env.RUNS ?? 1) },
    );
  });
});
