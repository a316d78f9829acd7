/**
 * Fits of widths and bores where they are written: limits by ISO 286-2, offered after a size, understood as they stand.
 * Limits of 8 mm and 16 mm from public extracts of ISO 286-2, from memory.
 */
import assert from 'node:assert/strict';
import { completionsAt } from '../../server/src/service/completion';
import { inlaysOf } from '../../server/src/service/inlays';
import { ALL, snapshotOf } from './alone';

const part = (feature: string, units = 'mm') =>
  `part: a\nunits: ${units}\nmaterial: steel-c45\nbody: { x: 60 mm, y: 40 mm, z: 20 mm }\nfeatures:\n  f:\n${feature}`;
const slot = (width: string) =>
  `    kind: slot\n    face: top\n    ends: [{ x: 10 mm, y: 20 mm }, { x: 50 mm, y: 20 mm }]\n    depth: 4 mm\n    width: ${width}\n`;
const keyway = (width: string) =>
  `    kind: keyway\n    face: top\n    at: { x: 30 mm, y: 20 mm }\n    along: x\n    length: 25 mm\n    depth: 4 mm\n    width: ${width}\n`;
const hole = (diameter: string) =>
  `    kind: hole\n    face: top\n    at: { x: 30 mm, y: 20 mm }\n    depth: through\n    diameter: ${diameter}\n`;

/** ISO 286-2 at 8 mm, µm. */
const AT_8: readonly (readonly [fit: string, upper: number, lower: number])[] = [
  ['P9', -15, -51],
  ['N9', 0, -36],
  ['JS9', 18, -18],
  ['H9', 36, 0],
  ['D10', 98, 40],
  ['H8', 22, 0],
  ['H11', 90, 0],
];

async function offered(text: string): Promise<ReadonlyMap<string, string>> {
  const snapshot = await snapshotOf(text);
  const typed = text.lastIndexOf(': ') + 2;
  const at = text.indexOf('\n', typed);
  return new Map(completionsAt(snapshot, at).map((i) => [i.label, i.detail ?? '']));
}
const told = (upper: number, lower: number) =>
  [upper, lower].map((um) => `${um > 0 ? '+' : ''}${um / 1000}`).join(' / ');

describe('fits of slots, keyways and bores', () => {
  for (const [fit, upper, lower] of AT_8)
    it(`8 ${fit} is ${told(upper, lower)}, in a slot and a keyway, and shown beside it`, async () => {
      for (const feature of [slot, keyway]) {
        const snapshot = await snapshotOf(part(feature(`8 ${fit}`)));
        assert.ok(snapshot.kind === 'part');
        const made = snapshot.checked.part.features[0]!;
        assert.ok('width' in made && !Array.isArray(made.width), made.kind);
        const { tolerance } = made.width as { tolerance?: { upperMm?: number; lowerMm?: number } };
        assert.deepEqual(
          [tolerance?.upperMm, tolerance?.lowerMm].map((x) => Math.round(1000 * x!)),
          [upper, lower],
        );
        const hint = inlaysOf(snapshot, ALL).find((h) => String(h.label).includes(told(upper, lower)));
        assert.ok(hint, `${fit}: no hint`);
      }
    });

  it('are offered after a size, with their limits there', async () => {
    for (const feature of [slot, keyway]) {
      const found = await offered(part(feature('8 ')));
      for (const [fit, upper, lower] of AT_8)
        assert.ok(found.get(fit)?.startsWith(`${told(upper, lower)} mm: `), `${fit}: ${found.get(fit)}`);
      assert.match(found.get('P9')!, /key that is tapped in/);
    }
    // Half typed, and of bores: 16 H7 is +0.018 / 0.
    assert.ok((await offered(part(slot('8 P')))).has('P9'));
    assert.match((await offered(part(hole('16 ')))).get('H7')!, /^\+0\.018 \/ 0 mm: /);
    assert.match((await offered(part(hole('0.25 in ')))).get('H7')!, /^\+0\.015 \/ 0 mm: /);
    assert.match((await offered(part(hole('0.25 '), 'in'))).get('H7')!, /^\+0\.015 \/ 0 mm: /);
  });

  it('are not offered before there is a size, nor where a fit means nothing', async () => {
    assert.ok(!(await offered(part(slot('')))).has('P9'));
    const depth = part(slot('8')).replace('    width: 8\n', '').replace('depth: 4 mm', 'width: 8 mm\n    depth: 4 ');
    assert.ok(!(await offered(depth)).has('P9'));
  });

  it('whatever is offered is understood, as it stands', async () => {
    for (const [feature, size] of [
      [slot, '8'],
      [keyway, '8'],
      [hole, '16'],
    ] as const)
      for (const [fit, detail] of await offered(part(feature(`${size} `)))) {
        if (!/ mm: /.test(detail)) continue;
        const snapshot = await snapshotOf(part(feature(`${size} ${fit}`)));
        assert.ok(snapshot.kind === 'part');
        assert.deepEqual(
          snapshot.checked.findings
            .filter((f) => f.rule.startsWith('form/') || f.rule === 'tol/fit-unknown')
            .map((f) => f.message),
          [],
          `${size} ${fit}`,
        );
      }
  });
});
