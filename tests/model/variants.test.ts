/** One part in many sizes: the text of a row, places told in the text as written, and what each row has of its own. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { textWith, variantText } from '../../server/src/model/variants';
import { checkPart } from '../../server/src/rules/check';
import { findingsOfVariant, variantFindings, variantOf } from '../../server/src/rules/variants';
import { readText } from '../../server/src/text/read';

const ARM = `part: arm
units: mm
material: aluminium-6061-t6
parameters:
  length: 60   # between the ends
  wall: 4
variants:   # two cameras
  short: { length: 40 }
  thin:
    wall: 0.5
  plain:
body: { x: length, y: 30, z: 12 }
features:
  cell:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: length - 2 * wall, y: 30 - 2 * wall }
    corner-radius: 4
    depth: 9
`;
const volume = (length: number, wall: number) => {
  const [x, y] = [length - 2 * wall, 30 - 2 * wall];
  return length * 30 * 12 - 9 * (x * y - (4 - Math.PI) * 16);
};
const checked = (text: string) => checkPart(text, builtinShop());
const volumeOf = (text: string, row: string) => variantOf(checked(text), row)?.solid.measures.volumeMm3 ?? 0;

describe('variants', () => {
  it('writes a row as a text of its own, with as many lines and every other byte', () => {
    const text = variantText(readText(ARM), 'short')!;
    const lines = ARM.split('\n');
    const expected = lines.map((line, i) =>
      i >= 6 && i <= 10 ? '' : line.replace('part: arm', 'part: arm-short').replace('length: 60', 'length: 40'),
    );
    assert.deepEqual(text.split('\n'), expected);
    assert.deepEqual(
      checked(ARM).part.variants.map((v) => v.name),
      ['short', 'thin', 'plain'],
    );
    assert.equal(variantText(readText(ARM), 'none'), undefined);
  });

  it('makes each a part with its own size, in block style, in braces and in one line', () => {
    const flow = ARM.replace(/parameters:\n.*\n.*\n/, 'parameters: { length: 60, wall: 4 }\n').replace(
      /variants:[\s\S]*?plain:\n/,
      'variants: { short: { length: 40 }, thin: { wall: 0.5 }, plain: {} }\n',
    );
    for (const text of [ARM, flow])
      for (const [row, length, wall] of [
        ['short', 40, 4],
        ['thin', 60, 0.5],
        ['plain', 60, 4],
      ] as const)
        assert.ok(Math.abs(volumeOf(text, row) / volume(length, wall) - 1) < 1e-6, `${row} of ${text}`);
    const line = `{ part: bar, parameters: { a: 10 }, variants: { b: { a: 20 } }, body: { x: a, y: 10, z: 10 } }\n`;
    assert.equal(volumeOf(line, 'b'), 2000);
  });

  it('works out what a row says by other parameters', () => {
    const text = ARM.replace('short: { length: 40 }', 'short: { length: wall * 10 }');
    assert.ok(Math.abs(volumeOf(text, 'short') / volume(40, 4) - 1) < 1e-6);
  });

  it('tells a finding once, with the rows that have it, at its place in the text as written', () => {
    const part = checked(ARM.replace('wall: 0.5', 'wall: 0.5\n  thinner: { wall: 0.5, length: 60 }'));
    assert.deepEqual(
      part.findings.filter((f) => f.rule === 'wall/slender'),
      [],
    );
    const found = variantFindings(part).filter((f) => f.rule === 'wall/slender');
    assert.equal(found.length, 4);
    for (const { span, message, variants, related } of found) {
      assert.deepEqual(variants, ['thin', 'thinner']);
      assert.match(message, /^In thin and thinner: The wall between pocket cell and the \w+ face is 0\.5 mm thick/);
      const { start, end } = part.tree.locate(span);
      assert.match(part.tree.text.slice(start, end), /^(length - 2 \* wall|30 - 2 \* wall)$/);
      for (const r of related) assert.equal(part.tree.locate(r.span).start > 0, true);
    }
    assert.equal(findingsOfVariant(part, 'short').length, 0);
    assert.equal(findingsOfVariant(part, 'thin').filter((f) => f.rule === 'wall/slender').length, 4);
  });

  it('tells what is wrong with a value in the table at the row', () => {
    const part = checked(ARM.replace('{ length: 40 }', '{ length: length + 2 }').replace('wall: 0.5', 'wall: 30 deg'));
    const told = variantFindings(part).filter((f) => f.rule.startsWith('form/'));
    const places = told.map((f) => {
      const { start, end } = part.tree.locate(f.span);
      return `${f.variants?.join()} ${part.tree.text.slice(start, end)}`;
    });
    assert.ok(places.includes('short length'), places.join('; '));
    assert.ok(
      places.some((p) => p.startsWith('thin length - 2 * wall')),
      places.join('; '),
    );
  });

  it('refuses rows that mean nothing, with a sentence', () => {
    const part = checked(
      ARM.replace('{ length: 40 }', '{ lenght: 40, wall: [1] }').replace('plain:', 'Big One: { wall: 2 }\n  odd: 7'),
    );
    assert.deepEqual(
      part.findings.filter((f) => f.rule.startsWith('form/')).map((f) => f.message),
      [
        'There is no parameter `lenght`. Did you mean `length`?',
        '`wall` of variant `short` needs a value. Write it like `wall: 36`.',
        '`Big One` is not a name for a variant. Write `big-one`: small letters, digits and `-`, a letter first.',
        'Variant `odd` needs parameters with other values. Write it like `odd: { length: 40 }`.',
      ],
    );
  });

  it('asks for an accept entry as long as one row needs it', () => {
    const accept = (text: string) => `${text}accept:\n  - { rule: wall/slender, because: light }\n`;
    const idle = (text: string) =>
      variantFindings(checked(text)).filter((f) => f.rule === 'form/unneeded-accept').length;
    assert.equal(idle(accept(ARM)), 0);
    assert.equal(idle(accept(ARM.replace('wall: 0.5', 'wall: 3.5'))), 1);
    assert.equal(idle(accept(ARM.replace('wall: 0.5', 'wall: 3.5').replace('wall: 4', 'wall: 0.5'))), 0);
  });

  it('writes shared values where a part has such a parameter', () => {
    const tree = readText('part: a\nparameters:\n  pitch: 30 # of the circle\nbody: { x: 1, y: 1, z: 1 }\n');
    assert.equal(
      textWith(
        tree,
        new Map([
          ['pitch', '36 mm'],
          ['other', '1'],
        ]),
      ),
      tree.text.replace('30', '36 mm'),
    );
  });
});
