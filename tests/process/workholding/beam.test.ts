/**
 * A workpiece as a beam: second moments against the closed forms of section tables (Roark's Formulas for Stress and Strain,
 * properties of sections, from memory), its bending against the closed forms of a cantilever and of a stepped one.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { arc, circleEdge, line } from '../../../server/src/geometry/2d/edge';
import { secondMomentsOf } from '../../../server/src/geometry/2d/moments';
import type { Edge } from '../../../server/src/geometry/types';
import { atMostLimber, limberOf } from '../../../server/src/process/workholding/beam';
import { heldOf } from '../../../server/src/process/workholding/in-jaws';
import { standsOut } from '../../../server/src/process/workholding/stands-out';
import { checkPart } from '../../../server/src/rules/check';
import { findingsOf, mended } from '../../rules/tester';
import { make } from '../parts';
import { near, shop } from './bench';

const rectangle = (u: number, v: number, wide: number, high: number): Edge[] => {
  const corners = [
    { u, v },
    { u: u + wide, v },
    { u: u + wide, v: v + high },
    { u, v: v + high },
  ];
  return corners.map((c, n) => line(c, corners[(n + 1) % 4]!));
};
const beamOf = (body: string, features: string, root: number, end: number) => {
  const { solid } = make(body, features);
  return limberOf({ body: solid.body, voids: solid.voids }, 0, root, end);
};

describe('a workpiece as a beam', () => {
  it('second moments: rectangle b h³ / 12, circle π r⁴ / 4, ring, half circle 0.1098 r⁴, wherever they lie', () => {
    const r = secondMomentsOf(rectangle(100, -30, 12, 5));
    near(r.uu, (5 * 12 ** 3) / 12);
    near(r.vv, (12 * 5 ** 3) / 12);
    const c = secondMomentsOf([circleEdge({ u: 40, v: 7 }, 6)]);
    near(c.uu, (Math.PI * 6 ** 4) / 4);
    near(c.vv, c.uu);
    const ring = secondMomentsOf([circleEdge({ u: -3, v: 9 }, 6), circleEdge({ u: -3, v: 9 }, 4, false)]);
    near(ring.vv, (Math.PI * (6 ** 4 - 4 ** 4)) / 4);
    const [a, b] = [
      { u: 15, v: 2 },
      { u: 5, v: 2 },
    ];
    const half = secondMomentsOf([arc(a, b, { u: 10, v: 2 }, true), line(b, a)]);
    near(half.uu, (Math.PI * 5 ** 4) / 8);
    near(half.vv, (Math.PI / 8 - 8 / (9 * Math.PI)) * 5 ** 4);
  });

  it('of one section: L³ / 3 I, square and round', () => {
    const bar = beamOf('{ x: 100, y: 12, z: 8 }', '', 30, 90)!;
    near(bar.u, 60 ** 3 / (3 * ((8 * 12 ** 3) / 12)));
    near(bar.v, 60 ** 3 / (3 * ((12 * 8 ** 3) / 12)));
    near(bar.thinnestMm, 8);
    const round = beamOf('{ diameter: 10, length: 100, axis: x }', '', 0, 80);
    near(round!.u, 80 ** 3 / (3 * ((Math.PI * 5 ** 4) / 4)));
  });

  it('stepped: the sum over its lengths of (a³ − b³) / 3 I, from either end', () => {
    const slot = '  n: { kind: slot, face: top, ends: [{ x: 40, y: -10 }, { x: 40, y: 30 }], width: 20, depth: 12 }\n';
    const [thick, thin] = [(20 * 20 ** 3) / 12, (20 * 8 ** 3) / 12];
    // From 10 to 90, thin from 30 to 50.
    const sum = (80 ** 3 - 60 ** 3) / (3 * thick) + (60 ** 3 - 40 ** 3) / (3 * thin) + 40 ** 3 / (3 * thick);
    near(beamOf('{ x: 100, y: 20, z: 20 }', slot, 10, 90)!.v, sum);
    const back = (80 ** 3 - 40 ** 3) / (3 * thick) + (40 ** 3 - 20 ** 3) / (3 * thin) + 20 ** 3 / (3 * thick);
    // From 90 back to 10 the thin stretch lies 40 to 60 from the root: 40 to 20 from the force.
    near(beamOf('{ x: 100, y: 20, z: 20 }', slot, 90, 10)!.v, back);
  });

  it('told from boxes alone it is never less limber than by its sections; without cuts it is the same', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.nat(60), fc.nat(14), fc.integer({ min: 2, max: 12 }), fc.integer({ min: 1, max: 17 })), {
          maxLength: 4,
        }),
        fc.constantFrom('top', 'bottom', 'front'),
        (cuts, face) => {
          const features = cuts.map(([x, across, size, depth], n) =>
            face === 'front'
              ? `  f${n}: { kind: hole, face: front, at: { x: ${x + 20}, z: ${across + 3} }, diameter: ${size}, depth: ${depth} }\n`
              : `  f${n}: { kind: pocket, face: ${face}, at: { x: ${x + 20}, y: ${across + 3} }, size: { x: ${size}, y: 4 }, corner-radius: 1, depth: ${depth} }\n`,
          );
          const { solid } = make('{ x: 100, y: 20, z: 20 }', features.join(''));
          const w = { body: solid.body, voids: solid.voids };
          const [bound, exact] = [atMostLimber(w, 0, 10, 90), limberOf(w, 0, 10, 90)];
          if (!bound) return;
          assert.ok(exact && bound.u >= exact.u * (1 - 1e-9) && bound.v >= exact.v * (1 - 1e-9));
          if (cuts.length === 0) near(bound.u, exact.u);
        },
      ),
      { seed: 1130, numRuns: 60 },
    );
    assert.equal(
      atMostLimber(
        {
          body: { form: 'round', axis: 0, radius: 4, box: make('{ x: 9, y: 8, z: 8 }', '').solid.body.box },
          voids: [],
        },
        0,
        0,
        9,
      ),
      undefined,
    );
  });

  it('sawn through on the way it holds nothing', () => {
    const slot =
      '  n: { kind: slot, face: top, ends: [{ x: 40, y: -10 }, { x: 40, y: 30 }], width: 6, depth: through }\n';
    assert.equal(beamOf('{ x: 100, y: 20, z: 20 }', slot, 10, 90), undefined);
  });
});

describe('hold/overhang of an end that an earlier cut left thin', () => {
  const neck = (cuts: string, z = 20) => `part: neck
material: aluminium-6061-t6
body: { x: 170, y: 20, z: ${z} }
features:
  neck: { kind: slot, face: top, ends: [{ x: 112, y: -10 }, { x: 112, y: 30 }], width: 12, depth: 15 }
  seat: { kind: pocket, face: top, at: { x: 158, y: center }, size: { x: 14, y: 12 }, corner-radius: 3.5, depth: 6 }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 10, overhang: { right: 70 } }, cuts: ${cuts} }
`;
  it('is told, and that the cut comes first', () => {
    const [far] = findingsOf('hold/overhang', neck('[neck, seat]'));
    assert.equal(far?.facts.stands_out_mm, 70);
    assert.match(far.message, /Cut seat first, while that end is stiff\.$/);
    assert.match(mended('hold/overhang', neck('[neck, seat]')), /cuts: \[seat, neck\]/);
  });
  it('nor is a thin wide plate too short to bend', () => {
    const plate = `part: plate
material: aluminium-6061-t6
body: { x: 125, y: 80, z: 3 }
features:
  k: { kind: slot, face: top, ends: [{ x: 116, y: 30 }, { x: 116, y: 50 }], width: 8, depth: 1.5 }
setups:
  one: { up: top, hold: { vise: mill-vise-100, jaws: [front, back], grip: 2.5, overhang: { right: 25 } }, cuts: [k] }
`;
    const checked = checkPart(plate, shop);
    const [end] = standsOut(heldOf(checked)[0]!, checked, 0);
    // Twice the side of a square of its section is 31 mm, twice its thickness 6.
    assert.ok(end!.leverMm > 6 && end!.leverMm < 31, String(end!.leverMm));
    assert.ok(end!.bendsMm > 0.01, String(end!.bendsMm));
  });
  it('not where the neck is cut last, or is thick', () => {
    assert.deepEqual(findingsOf('hold/overhang', neck('[seat, neck]')), []);
    assert.deepEqual(findingsOf('hold/overhang', neck('[neck, seat]', 26)), []);
  });
});
