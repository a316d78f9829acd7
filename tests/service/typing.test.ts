import assert from 'node:assert/strict';
import { type Typing, typingAt } from '../../server/src/service/typing';

type Expected = Pick<Typing, 'what' | 'path' | 'prefix' | 'flow'>;

/** `|` marks the cursor. */
function typing(marked: string): Expected | undefined {
  const offset = marked.indexOf('|');
  const found = typingAt(marked.slice(0, offset) + marked.slice(offset + 1), offset);
  if (!found) return undefined;
  assert.equal(found.from, offset - found.prefix.length);
  return { what: found.what, path: found.path, prefix: found.prefix, flow: found.flow };
}

const key = (path: string[], prefix: string, flow = false): Expected => ({ what: 'key', path, prefix, flow });
const value = (path: string[], prefix: string, flow = false): Expected => ({ what: 'value', path, prefix, flow });

describe('what is being typed', () => {
  const cases: [name: string, text: string, expected: ReturnType<typeof typing>][] = [
    ['a top-level key', 'part: a\nbo|', key([], 'bo')],
    ['an empty document', '|', key([], '')],
    ['a top-level value', 'units: m|', value(['units'], 'm')],
    ['a value with nothing yet', 'units: |\n', value(['units'], '')],
    ['a feature’s name', 'features:\n  se|', key(['features'], 'se')],
    ['a feature’s key', 'features:\n  seat:\n    kind: hole\n    dia|', key(['features', 'seat'], 'dia')],
    ['a feature’s value', 'features:\n  seat:\n    kind: ho|', value(['features', 'seat', 'kind'], 'ho')],
    ['a key before other lines', 'features:\n  seat:\n    |\n    kind: hole\n', key(['features', 'seat'], '')],
    [
      'the second feature',
      'features:\n  a:\n    kind: hole\n  b:\n    face: t|',
      value(['features', 'b', 'face'], 't'),
    ],
    ['past comments and blank lines', 'features:\n  # one\n\n  a:\n    # two\n\n    k|', key(['features', 'a'], 'k')],
    ['a key in braces', 'body: { x: 1, y|', key(['body'], 'y', true)],
    ['a first key in braces', 'body: { |', key(['body'], '', true)],
    ['a value in braces', 'features:\n  a:\n    at: { x: cen|', value(['features', 'a', 'at', 'x'], 'cen', true)],
    [
      'a nested value in braces',
      'features:\n  a:\n    pattern: { line: { x: pi|',
      value(['features', 'a', 'pattern', 'line', 'x'], 'pi', true),
    ],
    [
      'after a nested brace closed',
      'features:\n  a:\n    pattern: { line: { x: 1 }, |',
      key(['features', 'a', 'pattern'], '', true),
    ],
    ['an item in brackets', 'stock:\n  sawn: [left, ri|', value(['stock', 'sawn', '0'], 'ri', true)],
    ['a map in brackets', 'features:\n  s:\n    ends: [{ x: 1, |', key(['features', 's', 'ends', '0'], '', true)],
    ['a list item’s key', 'tolerances:\n  - of|', key(['tolerances', '0'], 'of')],
    [
      'a list item in braces',
      'tolerances:\n  - { position: 0.1, of: mo|',
      { what: 'value', path: ['tolerances', '0', 'of'], prefix: 'mo', flow: true },
    ],
    ['a second key of a list item', 'accept:\n  - rule: wall/thin\n    of: se|', value(['accept', '0', 'of'], 'se')],
    [
      'braces over two lines',
      'features:\n  a:\n    at: { x: 1,\n      y: ce|',
      value(['features', 'a', 'at', 'y'], 'ce', true),
    ],
    [
      'an expression',
      'features:\n  a:\n    width: body.x - 2 * wa|',
      value(['features', 'a', 'width'], 'body.x - 2 * wa'),
    ],
    ['windows line ends', 'features:\r\n  a:\r\n    kind: ho|', value(['features', 'a', 'kind'], 'ho')],
  ];
  for (const [name, text, expected] of cases) it(name, () => assert.deepEqual(typing(text), expected));

  it('nothing in a comment', () => {
    assert.equal(typing('part: a # no|'), undefined);
    assert.equal(typing('# no|'), undefined);
  });

  it('a hash inside quotes or a word is no comment', () => {
    assert.deepEqual(typing('title: "No #4 bl|'), value(['title'], '"No #4 bl'));
    assert.deepEqual(typing('title: a#b|'), value(['title'], 'a#b'));
  });

  it('never throws, wherever the cursor is', () => {
    const text = 'part: x\nfeatures:\n  a:\n    at: { x: [1, 2}, y: "z }\n  - b: {\n\n   \t c\n';
    for (let i = 0; i <= text.length; i++) typingAt(text, i);
  });
});
