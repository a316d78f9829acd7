/** What the jaws touch, against areas worked by hand and against counting points. */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { isMaterial } from '../../../server/src/process/stock';
import { contactOf } from '../../../server/src/process/workholding/in-jaws';
import { near, put } from './bench';

/** Of a circle, what lies beyond a chord at a distance from its centre (any table of mensuration). */
function segment(r: number, d: number): number {
  return r * r * Math.acos(d / r) - d * Math.sqrt(r * r - d * d);
}

describe('what the jaws touch', () => {
  it('a whole block: its length times the grip', () => {
    const { contact } = put({});
    for (const c of [contact.fixed, contact.moving, contact.opposed]) near(c.areaMm2, 60 * 10);
    assert.equal(contact.possibleMm2, 600);
    assert.equal(contact.opposed.regions.length, 1);
  });

  it('work longer than the jaws: only their length', () => {
    near(put({ body: '{ x: 150, y: 40, z: 20 }' }).contact.opposed.areaMm2, 100 * 10);
  });

  it('a grip deeper than the work is high: the work’s own height', () => {
    near(put({ body: '{ x: 60, y: 40, z: 8 }', grip: 10 }).contact.opposed.areaMm2, 60 * 8);
  });

  it('a blind hole in one face: the rectangle less the circle, less what of it stands above the jaws', () => {
    const features = '  tie: { kind: hole, face: front, at: { x: 20, z: 8 }, diameter: 8, depth: 10 }\n';
    const { contact } = put({ features, before: '[tie]' });
    const gone = Math.PI * 16 - segment(4, 2);
    near(contact.moving.areaMm2, 600 - gone);
    near(contact.fixed.areaMm2, 600);
    near(contact.opposed.areaMm2, 600 - gone);
  });

  it('two holes opposite each other that overlap: both circles, their lens once', () => {
    const features = `  a: { kind: hole, face: front, at: { x: 20, z: 5 }, diameter: 6, depth: 10 }
  b: { kind: hole, face: back, at: { x: 24, z: 5 }, diameter: 6, depth: 10 }
`;
    // Two circles of radius 3 whose centres are 4 apart share two segments beyond the chord half way.
    const both = 2 * Math.PI * 9 - 2 * segment(3, 2);
    const made = put({ features, before: '[a]' });
    near(made.contact.opposed.areaMm2, 600 - Math.PI * 9);
    const seating = made.seating;
    const all = { body: made.inTime.before.body, voids: made.made.solid.voids };
    near(contactOf(all, seating, made.inVise).opposed.areaMm2, 600 - both);
  });

  it('a ledge in a face: only what stands farthest out', () => {
    const features = '  ledge: { kind: step, face: top, along: front, width: 10, depth: 16 }\n';
    const { contact, inVise: h } = put({ features, before: '[ledge]' });
    assert.equal(h.movingAtMm, 0);
    near(contact.moving.areaMm2, 60 * 4);
    near(contact.opposed.areaMm2, 60 * 4);
  });

  it('areas that lie one above the other share nothing', () => {
    const features = `  ledge: { kind: step, face: top, along: back, width: 10, depth: 15 }
  under: { kind: step, face: bottom, along: front, width: 10, depth: 15 }
`;
    const { contact } = put({ features, before: '[ledge, under]', grip: 18 });
    near(contact.fixed.areaMm2, 60 * 5);
    near(contact.moving.areaMm2, 60 * 3);
    assert.equal(contact.opposed.areaMm2, 0);
  });

  it('a round bar: the chord a hair inside its side, a line', () => {
    const { contact } = put({ body: '{ diameter: 30, length: 50, axis: x }', grip: 20 });
    const hair = 1e-4;
    near(contact.fixed.areaMm2, 50 * 2 * Math.sqrt(2 * 15 * hair - hair * hair), 1e-4);
    assert.ok(contact.opposed.areaMm2 < 6);
  });

  it('moving a hole along the jaws changes nothing, nor does mirroring it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 6, max: 54 }), fc.integer({ min: 2, max: 9 }), (x, z) => {
        const at = (u: number) =>
          put({
            features: `  tie: { kind: hole, face: front, at: { x: ${u}, z: ${z} }, diameter: 7, depth: 10 }\n`,
            before: '[tie]',
          }).contact.opposed.areaMm2;
        near(at(x), at(30), 1e-9);
        near(at(x), at(60 - x), 1e-9);
      }),
      { numRuns: 10, seed: 11 },
    );
  });

  it('is what counting points finds, and shrinks with every cut', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({
            x: fc.integer({ min: 0, max: 60 }),
            z: fc.integer({ min: 0, max: 14 }),
            d: fc.integer({ min: 3, max: 9 }),
          }),
          { minLength: 1, maxLength: 4 },
        ),
        (holes) => {
          const features = holes
            .map(
              (o, i) =>
                `  h${i}: { kind: hole, face: ${i % 2 ? 'back' : 'front'}, at: { x: ${o.x}, z: ${o.z} }, diameter: ${o.d}, depth: 8 }\n`,
            )
            .join('');
          const made = put({ features });
          const { seating, inVise: h } = made;
          let last = Number.POSITIVE_INFINITY;
          for (let n = 0; n <= holes.length; n++) {
            const names = new Set(holes.slice(0, n).map((_, i) => `h${i}`));
            const w = {
              body: made.inTime.before.body,
              voids: made.made.solid.voids.filter((v) => names.has(v.feature)),
            };
            const { opposed } = contactOf(w, seating, h);
            assert.ok(opposed.areaMm2 <= last + 1e-9);
            last = opposed.areaMm2;
            let count = 0;
            const [nx, nz] = [240, 40];
            for (let i = 0; i < nx; i++)
              for (let k = 0; k < nz; k++) {
                const [x, z] = [((i + 0.5) * 60) / nx, ((k + 0.5) * 10) / nz];
                if (isMaterial(w, [x, 0.001, z]) && isMaterial(w, [x, 39.999, z])) count++;
              }
            assert.ok(
              Math.abs((count * 600) / (nx * nz) - opposed.areaMm2) < 6,
              `${(count * 600) / (nx * nz)} counted, ${opposed.areaMm2} told`,
            );
          }
        },
      ),
      { numRuns: 8, seed: 5 },
    );
  });
});
