/** Every size of a part that carries a tolerance: what is measured, and whether a round tool, a mill or neither makes it. */
import type { Feature, Hole, Length, Part, Shape, Tolerance } from '../../model/model';

export interface Size {
  /** Absent for the body's own sizes. */
  readonly feature?: Feature;
  /** For messages: `width`, `depth`, `counterbore`. */
  readonly what: string;
  readonly length: Length;
  readonly tolerance: Tolerance;
  /** A hole or gap, something that stands, or neither (a depth, a shoulder). */
  readonly side: 'inside' | 'outside' | 'neither';
  /** `bore`: a round opening; `mill`: the side or end of a mill; `form`: the shape of its own cutter, the drill's stop, the bar. */
  readonly made: 'bore' | 'mill' | 'form';
  /** Of a round opening: how deep it is, mm. */
  readonly deepMm?: number;
}

type Found = readonly [
  what: string,
  length: Length | undefined,
  side: Size['side'],
  made: Size['made'],
  deepMm?: number | undefined,
];

/** In text order; sizes without a tolerance are left out. */
export function* sizesOf(part: Part): Generator<Size> {
  yield* toleranced(bodySizes(part));
  for (const feature of part.features) yield* toleranced(featureSizes(feature), feature);
}

function* toleranced(all: Iterable<Found>, feature?: Feature): Generator<Size> {
  for (const [what, length, side, made, deepMm] of all) {
    if (!length?.tolerance) continue;
    const { tolerance } = length;
    yield {
      what,
      length,
      tolerance,
      side,
      made,
      ...(feature && { feature }),
      ...(deepMm !== undefined && { deepMm }),
    };
  }
}

function* bodySizes({ body }: Part): Generator<Found> {
  if (body?.form === 'box') for (const axis of ['x', 'y', 'z'] as const) yield [axis, body[axis], 'outside', 'mill'];
  if (body?.form === 'round') {
    // A bar comes drawn, ground or turned: no mill makes its diameter.
    yield ['diameter', body.diameter, 'outside', 'form'];
    yield ['length', body.length, 'outside', 'mill'];
  }
}

function* featureSizes(f: Feature): Generator<Found> {
  switch (f.kind) {
    case 'hole':
      return yield* holeSizes(f);
    case 'pocket':
      yield* shapeSizes(f.shape, 'inside', f.depth.mm);
      yield ['depth', f.depth.length, 'neither', 'mill'];
      for (const island of f.islands) {
        yield* shapeSizes(island.shape, 'outside');
        yield ['height', island.height, 'neither', 'mill'];
      }
      return;
    case 'slot':
      yield ['width', f.width, 'inside', 'mill'];
      yield ['depth', f.depth.length, 'neither', 'mill'];
      return;
    case 'step':
      for (const width of f.widths) yield ['width', width, 'neither', 'mill'];
      yield ['depth', f.depth.length, 'neither', 'mill'];
      return;
    case 'contour':
      for (const shape of f.shapes) yield* shapeSizes(shape, 'outside');
      yield ['depth', f.depth.length, 'neither', 'mill'];
      return;
    case 'groove':
      yield ['diameter', f.diameter, 'neither', 'form'];
      yield ['width', f.width, 'inside', 'mill'];
      yield ['depth', f.depth?.length, 'neither', 'mill'];
      return;
    case 'chamfer':
      return yield ['size', f.size, 'neither', 'form'];
    case 'round':
      return yield ['radius', f.radius, 'neither', 'form'];
    case 'engraving':
      return yield ['depth', f.depth.length, 'neither', 'form'];
    case 'incline':
      return yield ['size', f.given, 'neither', 'form'];
  }
}

function* holeSizes(hole: Hole): Generator<Found> {
  // Of a tapped hole the tap hole's limits are the thread's business.
  yield ['diameter', hole.diameter, 'inside', hole.thread ? 'form' : 'bore', hole.depth.mm];
  yield ['depth', hole.depth.length, 'neither', hole.bottom === 'flat' ? 'mill' : 'form'];
  const { counterbore, countersink } = hole;
  yield ['counterbore', counterbore?.diameter, 'inside', 'bore', counterbore?.depth.mm];
  yield ['counterbore depth', counterbore?.depth, 'neither', 'mill'];
  yield ['countersink', countersink?.diameter, 'neither', 'form'];
}

function* shapeSizes(shape: Shape, side: 'inside' | 'outside', deepMm?: number): Generator<Found> {
  if (shape.type === 'circle') yield ['diameter', shape.diameter, side, side === 'inside' ? 'bore' : 'mill', deepMm];
  if (shape.type !== 'rectangle') return;
  yield ['size', shape.u, side, 'mill'];
  yield ['size', shape.v, side, 'mill'];
}
