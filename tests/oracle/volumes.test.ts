/**
 * Volumes and centroids against closed forms from outside the project. The source stands beside each; formulas are
 * from memory unless a table is named, and each is a standard result that any handbook of geometry prints.
 */
import assert from 'node:assert/strict';
import { solidOf } from '../../server/src/geometry/part-solid';
import type { Feature } from '../../server/src/model/model';
import {
  at,
  box,
  chamfer,
  circle,
  corner,
  deep,
  groove,
  hole,
  incline,
  part,
  path,
  pocket,
  rectangle,
  rod,
  round,
  slot,
  step,
  THROUGH,
} from '../geometry/parts';

const { PI, SQRT2, sqrt, tan } = Math;
const RAD = PI / 180;

function near(actual: number, expected: number, relative = 1e-6, what = ''): void {
  const allowed = relative * Math.max(1, Math.abs(expected));
  assert.ok(Math.abs(actual - expected) <= allowed, `${what} ${actual}, expected ${expected}`);
}

/** Removed from a block. */
function removed(size: [number, number, number], ...features: Feature[]): number {
  const { volumeMm3, exact } = solidOf(part(box(...size), ...features)).measures;
  assert.ok(exact);
  return size[0] * size[1] * size[2] - volumeMm3;
}

describe('oracle: volumes in closed form', () => {
  it('cylinder: π r² h (Archimedes, On the Sphere and Cylinder)', () => {
    near(removed([60, 40, 16], hole({ places: [at(30, 20)], diameter: 22, depth: deep(7) })), PI * 121 * 7);
  });

  it('cone of a drill point: π r² h / 3, h = r / tan(half the point angle) (Eudoxus; point angle: common practice 118°)', () => {
    const r = 4.25;
    const cone = (PI * r * r * (r / tan(59 * RAD))) / 3;
    const drilled = hole({ places: [at(30, 20)], diameter: 2 * r, depth: deep(20), bottom: 'cone', point: 118 });
    near(removed([60, 40, 40], drilled), PI * r * r * 20 + cone);
  });

  it('frustum of a countersink: π h (R² + R r + r²) / 3 (Heron, Metrica)', () => {
    const sunk = hole({ places: [at(30, 20)], diameter: 5.5, depth: THROUGH, countersink: [11.2, 90] });
    const [R, r] = [5.6, 2.75];
    const h = R - r;
    near(removed([60, 40, 16], sunk), (PI * h * (R * R + R * r + r * r)) / 3 + PI * r * r * (16 - h));
  });

  it('two equal cylinders crossing square: common volume 16 r³ / 3 (Archimedes, The Method; Zu Chongzhi)', () => {
    const r = 10;
    const a = hole({ face: 'left', places: [at(30, 30)], diameter: 2 * r, depth: THROUGH });
    const b = hole({ face: 'front', places: [at(30, 30)], diameter: 2 * r, depth: THROUGH });
    near(removed([60, 60, 60], a, b), 2 * PI * r * r * 60 - (16 * r ** 3) / 3);
    const solid = solidOf(part(box(60, 60, 60), a, b));
    near(solid.sharedMm3(solid.voids[0]!, solid.voids[1]!), (16 * r ** 3) / 3);
  });

  it('three equal cylinders: common volume 8 (2 − √2) r³ (tricylinder, Moore 1974)', () => {
    const r = 10;
    const three = (['left', 'front', 'top'] as const).map((face) =>
      hole({ face, places: [at(30, 30)], diameter: 2 * r, depth: THROUGH }),
    );
    const union = 3 * PI * r * r * 60 - 3 * ((16 * r ** 3) / 3) + 8 * (2 - SQRT2) * r ** 3;
    near(removed([60, 60, 60], ...three), union);
  });

  it('two equal cylinders crossing at 60°: common volume 16 r³ / (3 sin θ)', () => {
    const r = 6;
    const across = hole({ face: 'front', places: [at(50, 20)], diameter: 2 * r, depth: THROUGH });
    const leaning = hole({
      face: 'front',
      places: [at(50, 20)],
      diameter: 2 * r,
      depth: THROUGH,
      tilt: { about: 'z', angle: 60 },
    });
    // both axes lie in z = 20 and meet on the front face: half of the common body lies behind it
    const both = solidOf(part(box(100, 60, 40), across, leaning));
    near(both.sharedMm3(both.voids[0]!, both.voids[1]!), (16 * r ** 3) / (3 * Math.sin(60 * RAD)) / 2, 2e-5);
  });

  it('hexagonal prism: (3 √3 / 2) s² h (Euclid XIII)', () => {
    const s = 8;
    const hex = path(...[0, 1, 2, 3, 4, 5].map((k) => corner(s * Math.cos(k * 60 * RAD), s * Math.sin(k * 60 * RAD))));
    near(
      removed([60, 40, 16], pocket({ places: [at(30, 20)], shape: hex, depth: deep(5) })),
      ((3 * sqrt(3)) / 2) * s * s * 5,
    );
  });

  it('rounded rectangle: w h − (4 − π) r²; stadium: l d + π d² / 4', () => {
    const recess = pocket({ places: [at(30, 20)], shape: rectangle(30, 20, 4), depth: deep(6) });
    near(removed([60, 40, 16], recess), (600 - (4 - PI) * 16) * 6);
    const keyway = slot({ line: [corner(10, 20), corner(40, 20)], width: 8, depth: deep(4) });
    near(removed([60, 40, 16], keyway), (30 * 8 + PI * 16) * 4);
  });

  it('frustum of a pyramid on a rectangle: h (2ab + 2a′b′ + ab′ + a′b) / 6 (prismatoid formula, Ernst August 1835)', () => {
    const size = 1.5;
    const [a, b, c, d] = [60, 40, 60 - 2 * size, 40 - 2 * size];
    const kept = (size * (2 * a * b + 2 * c * d + a * d + c * b)) / 6;
    near(removed([60, 40, 16], chamfer({ edges: ['top'], size })), 60 * 40 * size - kept);
  });

  it('fillet in a corner: (1 − π/4) r² l; round a circular rim: Pappus, 2π times the centroid’s radius', () => {
    near(removed([60, 40, 16], round({ edges: [['top', 'left']], radius: 3 })), (1 - PI / 4) * 9 * 40);
    const [r, R] = [1, 5];
    const area = r * r * (1 - PI / 4);
    // centroid of the spandrel from its square corner: r (10 − 3π) / (12 − 3π)
    const off = (r * (10 - 3 * PI)) / (12 - 3 * PI);
    const bore = hole({ name: 'bore', places: [at(30, 20)], diameter: 2 * R, depth: THROUGH });
    near(
      removed([60, 40, 16], bore, round({ edges: [{ rim: 'bore' }], radius: r })),
      PI * R * R * 16 + 2 * PI * (R + off) * area,
    );
  });

  it('ball-nosed floor of a round pocket: Pappus for the fillet ring left standing', () => {
    const [R, r, depth] = [10, 2, 5];
    const area = r * r * (1 - PI / 4);
    const off = (r * (10 - 3 * PI)) / (12 - 3 * PI);
    const recess = pocket({ places: [at(30, 20)], shape: circle(2 * R), depth: deep(depth), floorRadius: r });
    near(removed([60, 40, 16], recess), PI * R * R * depth - 2 * PI * (R - off) * area);
  });

  it('hemisphere: 2 π r³ / 3 (Archimedes), as a pocket whose floor radius is its radius', () => {
    const r = 7;
    const bowl = pocket({ places: [at(30, 20)], shape: circle(2 * r), depth: deep(r), floorRadius: r });
    near(removed([60, 40, 16], bowl), (2 * PI * r ** 3) / 3);
    const { centroid } = solidOf(part(box(60, 40, 16), bowl)).measures;
    // centroid of a hemisphere: 3 r / 8 below its flat face
    const v = (2 * PI * r ** 3) / 3;
    near(centroid[2], (60 * 40 * 16 * 8 - v * (16 - (3 * r) / 8)) / (60 * 40 * 16 - v));
  });

  it('dovetail: trapezium; tee: two rectangles; incline: triangle; ring: π (R² − r²)', () => {
    const line = [corner(-20, 20), corner(80, 20)];
    near(
      removed([60, 40, 16], slot({ line, width: 8, depth: deep(4), dovetail: 60 })),
      60 * 4 * (8 + 4 / tan(60 * RAD)),
    );
    near(removed([60, 40, 16], slot({ line, width: 8, depth: deep(10), tee: [14, 4] })), 60 * (8 * 6 + 14 * 4));
    near(removed([60, 40, 16], incline({ along: 'left', width: 6, depth: 4 })), (40 * 6 * 4) / 2);
    near(
      removed([60, 40, 16], groove({ places: [at(30, 20)], diameter: 10, width: 2, depth: deep(3) })),
      PI * (49 - 25) * 3,
    );
  });

  it('oblique cylinder through a plate: π r² t / cos θ (Cavalieri)', () => {
    for (const about of ['x', 'y'] as const) {
      const leaning = hole({ places: [at(30, 20)], diameter: 10, depth: THROUGH, tilt: { about, angle: 20 } });
      near(removed([60, 40, 16], leaning), (PI * 25 * 16) / Math.cos(20 * RAD));
    }
  });

  it('circular segment: r² (θ − sin θ) / 2, a hole half off the edge', () => {
    const [r, inside] = [8, 5];
    const cut = hole({ places: [at(inside, 20)], diameter: 2 * r, depth: deep(4) });
    const theta = 2 * Math.acos(inside / r);
    near(removed([60, 40, 16], cut), 4 * (PI * r * r - (r * r * (theta - Math.sin(theta))) / 2));
  });

  it('lens of two circles: the usual two-segment sum, two bores that run into each other', () => {
    const [r, d] = [6, 9];
    const theta = 2 * Math.acos(d / 2 / r);
    const lens = r * r * (theta - Math.sin(theta));
    const pair = hole({ places: [at(20, 20), at(20 + d, 20)], diameter: 2 * r, depth: deep(5) });
    near(removed([60, 40, 16], pair), 5 * (2 * PI * r * r - lens));
  });

  it('round bar: cylinder less a flat is a segment; cross bore at the middle', () => {
    const bar = rod(30, 50, 'x');
    const flat = step({ face: 'top', along: ['left'], widths: [20], depth: deep(5) });
    const theta = 2 * Math.acos(10 / 15);
    near(solidOf(part(bar, flat)).measures.volumeMm3, PI * 225 * 50 - 20 * ((225 * (theta - Math.sin(theta))) / 2));
    // equal bore through an equal bar takes the bicylinder: 16 r³ / 3
    const bore = hole({ face: 'top', places: [at(25, 15)], diameter: 30, depth: THROUGH });
    near(solidOf(part(bar, bore)).measures.volumeMm3, PI * 225 * 50 - (16 * 15 ** 3) / 3);
  });

  it('centroid of what is left: moments of the parts (Varignon)', () => {
    const { centroid, volumeMm3 } = solidOf(
      part(box(60, 40, 16), step({ along: ['left'], widths: [20], depth: deep(10) })),
    ).measures;
    near(volumeMm3, 60 * 40 * 16 - 20 * 40 * 10);
    near(centroid[0], (60 * 40 * 16 * 30 - 8000 * 10) / volumeMm3);
    near(centroid[1], 20);
    near(centroid[2], (60 * 40 * 16 * 8 - 8000 * 11) / volumeMm3);
  });
});
