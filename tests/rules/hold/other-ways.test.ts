/** What plain jaws do not hold: the other ways that were tried and do are offered, and others are not. */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../../server/src/rules/check';
import { ALUMINIUM } from '../parts';
import { fixed } from '../tester';

function offered(rule: string, text: string): readonly string[] {
  const checked = checkPart(text, builtinShop());
  const found = checked.findings.find((f) => f.rule === rule);
  assert.ok(found, `${rule} is not raised: ${checked.findings.map((f) => f.rule)}`);
  return fixesFor(checked, found).map((f) => {
    const after = checkPart(fixed(checked, f), builtinShop()).findings;
    assert.ok(!after.some((x) => x.rule === rule && x.facts.set_up === found.facts.set_up), f.title);
    return f.title;
  });
}

const seat = (more: string, body: string, hold: string, before = '') => `${ALUMINIUM}body: ${body}
features:
${more}  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
setups:
${before}  last: { up: top, hold: ${hold}, cuts: [seat] }
`;
const HOLES = `  tie: { kind: hole, face: top, at: { x: center, y: center }, diameter: 6.6, depth: through, pattern: { line: { x: 70, count: 2 } } }\n`;

describe('other ways to hold', () => {
  it('wider than the vise opens, either way: clamps on the table', () => {
    const text = seat('', '{ x: 160, y: 150, z: 20 }', '{ vise: mill-vise-100, jaws: [back, front], grip: 10 }');
    assert.ok(offered('hold/opening', text).some((t) => /^Clamp it to the table/.test(t)));
  });

  it('with through holes that an earlier set-up drilled: screws through them', () => {
    const text = seat(
      HOLES,
      '{ x: 160, y: 150, z: 20 }',
      '{ vise: mill-vise-100, jaws: [back, front], grip: 10 }',
      '  first: { up: bottom, hold: { clamps: [{ x: 8, y: 8 }, { x: 152, y: 142 }], on: plate }, cuts: [tie] }\n',
    );
    assert.ok(offered('hold/opening', text).includes('Screw it to a plate through tie'));
  });

  it('a round block in plain jaws: jaws milled to its shape', () => {
    const text = `${ALUMINIUM}body: { diameter: 50, length: 30, axis: z }
features:
  seat: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 24, y: 16 }, corner-radius: 6, depth: 5 }
setups:
  last: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 14, parallels: 18 }, cuts: [seat] }
`;
    assert.ok(offered('hold/parallel', text).includes('Hold it in soft jaws milled to its shape'));
  });

  it('a thin plate that no grip holds: clamps where it is whole', () => {
    const text = seat(
      '',
      '{ x: 100, y: 80, z: 4 }',
      '{ vise: mill-vise-100, jaws: [back, front], grip: 2, parallels: 30 }',
    ).replace('depth: 5', 'depth: 2');
    assert.ok(offered('hold/grip', text).some((t) => /^Clamp it to the table/.test(t)));
  });

  it('a frame that gives way: clamps, and none where something is cut', () => {
    const text = `${ALUMINIUM}body: { x: 140, y: 90, z: 20 }
features:
  window: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 70, y: 70 }, corner-radius: 8, depth: through }
  rim: { kind: step, face: top, along: front, width: 9, depth: 3 }
setups:
  last: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [window, rim] }
`;
    const titles = offered('hold/squeeze', text);
    // The front corners are cut here; left and right in the middle are whole. It goes through, so onto a plate.
    assert.ok(titles.includes('Clamp it to the plate at 2 places'), titles.join(' | '));
    assert.ok(!titles.some((t) => /4 places/.test(t)), titles.join(' | '));
  });
});
