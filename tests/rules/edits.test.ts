/** Edits of plain text, and edits in the author's own way of writing. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { memberName } from '../../server/src/model/member-name';
import type { Hole, Pocket } from '../../server/src/model/model';
import { checkPart } from '../../server/src/rules/check';
import { placed } from '../../server/src/rules/fixes';
import {
  addEntry,
  coordinate,
  featureNode,
  moveFeature,
  nodeAt,
  removeEntry,
  setLength,
} from '../../server/src/rules/kit/edits';
import { count, fact, list, roundDown, roundUp, spanOf, trimmed } from '../../server/src/rules/kit/message';
import type { SpanEdit } from '../../server/src/rules/kit/rule';
import { commentsOf } from '../../server/src/text/comments';
import { applyEdits } from '../../server/src/text/edit';
import { lineEdits } from '../../server/src/text/line-edits';
import { entry } from '../../server/src/text/tree';

const check = (text: string) => checkPart(text, builtinShop());
const part = (lines: string, head = 'part: p\nunits: mm\nbody: { x: 60, y: 40, z: 20 }\n') =>
  check(`${head}features:\n  f:\n${lines.replace(/^/gm, '    ').trimEnd()}\n`);
const edited = (checked: ReturnType<typeof check>, edits: readonly SpanEdit[] | undefined) => {
  assert.ok(edits);
  return applyEdits(checked.tree.text, placed(edits, checked.tree)!);
};

describe('comments of a text', () => {
  it('are found, and nothing that only looks like one', () => {
    assert.deepEqual(commentsOf("# a\nb: 1 # two\nc: \"x # y\" # d\nd: '# no'\ne: a#b\nf: it's # yes\n  # g  \r\n"), [
      '# a',
      '# two',
      '# d',
      '# yes',
      '# g',
    ]);
  });
});

describe('line edits', () => {
  const cases: readonly [string, string][] = [
    ['', ''],
    ['', 'a\n'],
    ['a\nb\nc\n', 'a\nc\n'],
    ['a\nb\nc\n', 'a\nx\nc\n'],
    ['a\nb\nc', 'z\na\nb\nc\nd'],
    ['one\ntwo\nthree\nfour\nfive\n', 'two\nthree\n3.5\nfour\nFIVE\n'],
    ['a\r\nb\r\n', 'a\r\nc\r\n'],
  ];
  for (const [before, now] of cases) {
    it(`turn ${JSON.stringify(before)} into ${JSON.stringify(now)}`, () => {
      const edits = lineEdits(before, now);
      assert.equal(applyEdits(before, edits), now);
      for (let i = 1; i < edits.length; i++) assert.ok(edits[i]!.start >= edits[i - 1]!.end);
    });
  }
  it('leave untouched lines alone', () => {
    const edits = lineEdits('a\nb\nc\nd\ne\n', 'a\nB\nc\nD\ne\n');
    assert.deepEqual(edits, [
      { start: 2, end: 4, newText: 'B\n' },
      { start: 6, end: 8, newText: 'D\n' },
    ]);
  });
});

describe('setting a length', () => {
  const depth = (written: string, head?: string) => {
    const c = part(`kind: pocket\nface: top\nat: { x: 30, y: 20 }\ndiameter: 12\ndepth: ${written}\n`, head);
    const length = (c.part.features[0] as Pocket).depth.length;
    return { c, edit: setLength(length, 6.35, c.part) };
  };
  const wanted: readonly [string, string, string?][] = [
    ['5', '6.35'],
    ['5 mm', '6.35 mm'],
    ['1/8 in', '0.25 in'],
    ['5 +0.1/-0', '6.35 +0.1/-0'],
    ['5 ±0.05', '6.35 ±0.05'],
    ['body.z / 4', '6.35'],
    ['0.2', '0.25', 'part: p\nunits: in\nbody: { x: 3, y: 2, z: 1 }\n'],
    ['5 mm', '6.35 mm', 'part: p\nunits: in\nbody: { x: 3, y: 2, z: 1 }\n'],
  ];
  for (const [written, text, head] of wanted) {
    it(`${written} becomes ${text}`, () => {
      const { edit } = depth(written, head);
      assert.equal(edit?.newText, text);
    });
  }
  it('cannot be done to one that nobody wrote', () => {
    const c = part('kind: pocket\nface: top\nat: { x: 30, y: 20 }\nsize: { x: 12, y: 12 }\ndepth: 3\n');
    assert.equal(setLength((c.part.features[0] as Pocket).floorRadius, 1, c.part), undefined);
  });
});

describe('moving a feature', () => {
  const move = (at: string, du: number, dv: number, more = '', face = 'top') => {
    const c = part(`kind: hole\nface: ${face}\nat: ${at}\n${more}diameter: 5\ndepth: 6\n`);
    const edits = moveFeature(c, c.part.features[0]!, [du, dv]);
    return edits && edited(c, edits);
  };
  it('keeps the words of the author', () => {
    assert.match(move('{ x: 20, y: 8 }', 1.5, 0)!, /at: \{ x: 21\.5, y: 8 \}/);
    assert.match(move('{ right: 12, front: 8 }', 2, 3)!, /at: \{ right: 10, front: 11 \}/);
    assert.match(move('{ left: 12, back: 8 }', 2, 3)!, /at: \{ left: 14, back: 5 \}/);
    assert.match(move('{ x: center, y: center }', 0, -4)!, /at: \{ x: center, y: 16 \}/);
    assert.match(move('{ x: 30, top: 6 }', 0, 1, '', 'front')!, /at: \{ x: 30, top: 5 \}/);
  });
  it('moves a pattern by its centre, and a listed place alone', () => {
    assert.match(move('{ x: 30, y: 20 }', 2, 0, 'pattern: { line: { x: 10, count: 3 } }\n')!, /at: \{ x: 32, y: 20 \}/);
    const c = part(
      'kind: hole\nface: top\npattern: { places: [{ x: 10, y: 10 }, { x: 40, y: 10 }] }\ndiameter: 5\ndepth: 6\n',
    );
    const edits = moveFeature(c, c.part.features[0]!, [0, 2], 2);
    assert.match(edited(c, edits), /\[\{ x: 10, y: 10 \}, \{ x: 40, y: 12 \}\]/);
  });
  it('has nothing to write where no place is written', () => {
    const c = part('kind: slot\nface: top\nends: [{ x: 10, y: 20 }, { x: 40, y: 20 }]\nwidth: 6\ndepth: 3\n');
    assert.equal(moveFeature(c, c.part.features[0]!, [1, 0]), undefined);
  });
});

describe('adding and taking out entries', () => {
  const c = check(
    'part: p\nbody: { x: 60, y: 40, z: 20 } # the block\nfeatures:\n  a: # first\n    kind: hole\n    face: top # up\n    at: { x: 9, y: 9 }\n    diameter: 5\n    depth: 6\n  b:\n    kind: hole\n    face: top\n    at: { x: 30, y: 9 }\n    diameter: 5\n    depth: 6 # deep\n',
  );

  it('follows the indentation, behind a comment', () => {
    const edit = addEntry(c.tree, featureNode(c.tree, 'b')!, 'note', 'ream it');
    assert.match(edited(c, [edit!]), /depth: 6 # deep\n {4}note: ream it\n$/);
  });
  it('follows braces', () => {
    const map = nodeAt(c.tree, 'a', 'at');
    assert.equal(map?.type, 'map');
    const edit = map?.type === 'map' ? addEntry(c.tree, map, 'z', '1') : undefined;
    assert.match(edited(c, [edit!]), /at: \{ x: 9, y: 9, z: 1 \}/);
    assert.equal(map?.type === 'map' && coordinate(map, 'y')?.key.source, 'y');
  });
  it('leaves the comments of what goes', () => {
    const features = entry(c.tree.root, 'features');
    const gone = entry(features?.value, 'a');
    assert.ok(features?.value?.type === 'map' && gone);
    const text = edited(c, removeEntry(c.tree, features.value, gone, features));
    assert.match(text, /features:\n {2}# first\n {2}# up\n {2}b:\n/);
    assert.deepEqual(check(text).findings, []);
  });
});

describe('wording', () => {
  it('of numbers', () => {
    assert.deepEqual(
      [trimmed(3.5, 3), trimmed(100, 0), trimmed(-0.0001, 3), trimmed(2.25, 1)],
      ['3.5', '100', '0', '2.3'],
    );
    assert.deepEqual([fact(0.1 + 0.2), fact(-1e-9), fact(1.23456)], [0.3, 0, 1.235]);
    assert.deepEqual([count(1, 'wall'), count(3, 'wall'), count(2, 'piece')], ['1 wall', '3 walls', '2 pieces']);
  });
  it('of lists and members', () => {
    assert.deepEqual(
      [list([]), list(['a']), list(['a', 'b']), list(['a', 'b', 'c'], 'or')],
      ['', 'a', 'a and b', 'a, b or c'],
    );
    assert.deepEqual([memberName('m', 0), memberName('m', 2)], ['m', 'm[2]']);
  });
  it('rounds to what is set on a dial', () => {
    assert.ok(Math.abs(roundUp(0.31, 'mm') - 0.4) < 1e-9);
    assert.ok(Math.abs(roundUp(0.3, 'mm') - 0.3) < 1e-9);
    assert.ok(Math.abs(roundDown(0.39, 'mm') - 0.3) < 1e-9);
    assert.ok(Math.abs(roundUp(0.13, 'in') - 0.254) < 1e-9);
  });
  it('points at the narrowest text that is written', () => {
    const c = part('kind: hole\nface: top\nat: { x: 9, y: 9 }\nthread: M5\ndepth: 12\n');
    const f = c.part.features[0] as Hole;
    const text = (...fields: string[]) => {
      const { start, end } = c.tree.locate(spanOf(f, ...fields));
      return c.tree.text.slice(start, end);
    };
    assert.equal(text('depth'), '12');
    assert.equal(text('thread'), 'M5');
    assert.equal(text('at'), '{ x: 9, y: 9 }');
    assert.equal(text('diameter', 'thread'), 'M5'); // the diameter is the tap drill's, nobody wrote it
    assert.equal(text('floorRadius'), 'f');
  });
});
