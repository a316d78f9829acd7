/** Heads of screws that hold the work down are met like jaws. Sizes: ISO 4762, M6: head 10 mm wide, 6 mm high (public tables). */
import assert from 'node:assert/strict';
import { builtinShop } from '../../../server/src/model/builtin-shop';
import { checkPart, fixesFor } from '../../../server/src/rules/check';

const part = ({
  pin = '{ x: 52, y: center }',
  more = '',
  wide = 28,
  screws = '[tie, pin]',
  cuts = '[seat]',
  hole = 'diameter: 6.6',
}) => `part: plate
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 16 }
features:
  tie: { kind: hole, face: top, at: { x: 5, y: center }, ${hole}, depth: through }
  pin: { kind: hole, face: top, at: ${pin}, ${hole}, depth: through }
  seat: { kind: pocket, face: top, at: { x: 30, y: center }, size: { x: ${wide}, y: 16 }, corner-radius: 6, depth: 5 }
${more}setups:
  first: { up: top, hold: { vise: mill-vise-100, jaws: [back, front], grip: 6, parallels: 26 }, cuts: [tie, pin] }
  second: { up: top, hold: { screws: ${screws}, to: plate }, cuts: ${cuts} }
`;
function found(text: string) {
  const checked = checkPart(text, builtinShop());
  const findings = checked.findings.filter((f) => f.rule === 'access/jaw');
  return { checked, findings, told: findings.map((f) => [f.severity, f.facts.meets]) };
}

describe('heads of screws', () => {
  it('are an error where the cutter runs into one, a warning nearer than the margin, nothing beyond it', () => {
    // The head over `pin` begins at x 47. The pocket's end: at 44, 46.5, 48.
    assert.deepEqual(found(part({ wide: 28 })).told, []);
    assert.deepEqual(found(part({ wide: 33 })).told, [['warning', 'screw']]);
    const { findings, told } = found(part({ wide: 36 }));
    assert.deepEqual(told, [['error', 'screw']]);
    assert.equal(findings[0]!.facts.overlap_mm, 1);
    // The tip is 5 mm below the face, the head stands 6 mm above it.
    assert.equal(findings[0]!.facts.height_above_jaws_mm, -11);
    assert.match(findings[0]!.message, /into the head of a screw/);
  });

  it('that sink into a counterbore or a countersink are in nobody’s way', () => {
    assert.deepEqual(
      found(part({ wide: 32, hole: 'diameter: 6.6, counterbore: { diameter: 11, depth: 6.4 }' })).told,
      [],
    );
    assert.deepEqual(
      found(part({ wide: 32, hole: 'diameter: 6.6, countersink: { diameter: 13.5, angle: 90 }' })).told,
      [],
    );
  });

  it('are out of the way where other holes hold: offered', () => {
    const more = '  far: { kind: hole, face: top, at: { x: 55, y: 34 }, diameter: 6.6, depth: through }\n';
    const text = part({ wide: 36, more, screws: '[tie, pin, far]' }).replace(
      'cuts: [tie, pin]',
      'cuts: [tie, pin, far]',
    );
    const { checked, findings } = found(text);
    assert.equal(findings[0]?.severity, 'error');
    const titles = fixesFor(checked, findings[0]!).map((f) => f.title);
    assert.ok(titles.includes('Screw it down only through tie and far'), titles.join(' | '));
  });

  it('stand in the way of facing what they hold down', () => {
    const text = part({ cuts: '[top, seat]' }).replace(
      'features:',
      'stock: { form: block, extra: { top: 1 } }\nfeatures:',
    );
    assert.ok(
      found(text).findings.some((f) => f.severity === 'error' && f.of[0] === 'top'),
      found(text)
        .checked.findings.map((f) => f.rule + f.message)
        .join('\n'),
    );
  });
});
