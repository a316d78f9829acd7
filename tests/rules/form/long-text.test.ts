/** A text of any length is judged: what lies on the part is drawn, how far it runs past it is told as it is. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart } from '../../../server/src/rules/check';

const engraved = (text: string, x: number, height: number) =>
  checkPart(
    `part: p
units: mm
material: aluminium-6061-t6
body: { x: ${x}, y: 60, z: 10 }
features:
  name: { kind: engraving, face: top, at: { x: center, y: center }, text: ${text}, height: ${height}, depth: 0.2 }
`,
    builtinShop(),
  );
const errors = ({ findings }: ReturnType<typeof checkPart>) =>
  findings.filter((f) => f.severity === 'error').map((f) => f.rule);

describe('an engraving of many letters', () => {
  it('is no error of the text; that it runs past the part is said, by how much', () => {
    const far = (letters: number) => {
      const checked = engraved('H'.repeat(letters), 120, 5);
      assert.ok(checked.solid.voids.length < 600, `${checked.solid.voids.length} cuts`);
      assert.ok(!errors(checked).includes('form/schema') && !errors(checked).includes('form/not-judged'));
      const found = checked.findings.find((f) => f.rule === 'form/outside-body');
      assert.ok(found, 'it runs past the part');
      return Number(found.facts.past_mm);
    };
    const [short, long] = [far(400), far(4000)];
    // Ten times as long, half of it on each side, less half the body.
    assert.ok(Math.abs((long + 60) / (short + 60) - 10) < 0.02, `${short} ${long}`);
  });

  it('is clean where it stays on the part', () => {
    assert.deepEqual(engraved('H'.repeat(20), 120, 5).findings, []);
  });

  it('that may all lie on it is judged as far as it is drawn, and the rest is said', () => {
    const checked = engraved('I'.repeat(1200), 3000, 5);
    const found = checked.findings.filter((f) => f.rule === 'form/not-judged');
    assert.deepEqual(
      found.map((f) => f.facts.letters_left_out),
      [700],
    );
  });

  it('may be as long as a file', () => {
    const checked = engraved('X'.repeat(200_000), 120, 5);
    assert.ok(checked.solid.voids.length < 600);
    assert.ok(
      errors(checked).every((rule) => rule === 'form/outside-body'),
      errors(checked).join(),
    );
  });
});
