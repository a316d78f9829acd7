/** Every size of a part that carries a tolerance: what is measured, and whether a round tool, a mill or neither makes it. */
import { memo } from '../../memo';
import { homeOf } from '../../model/feature-kinds';
import type { SizeOf } from '../../model/feature-kinds/kind';
import type { Feature, Length, Part, Tolerance } from '../../model/model';

export interface Size {
  /** Absent for the body's own sizes. */
  readonly feature?: Feature;
  /** For messages: `width`, `depth`, `counterbore`. */
  readonly what: string;
  readonly length: Length;
  readonly tolerance: Tolerance;
  /** A hole or gap, something that stands, or neither (a depth, a shoulder). */
  readonly side: SizeOf[2];
  /** `bore`: a round opening; `mill`: the side or end of a mill; `form`: the shape of its own cutter, the drill's stop, the bar. */
  readonly made: SizeOf[3];
  /** Of a round opening: how deep it is, mm. */
  readonly deepMm?: number;
}

/** In text order; sizes without a tolerance are left out. */
export function* sizesOf(part: Part): Generator<Size> {
  yield* toleranced(bodySizes(part));
  for (const feature of part.features) yield* ofFeature(feature);
}

/** The same as long as the feature is. */
const ofFeature = memo((feature: Feature): readonly Size[] => [...toleranced(homeOf(feature).sizes(feature), feature)]);

function* toleranced(all: Iterable<SizeOf>, feature?: Feature): Generator<Size> {
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

function* bodySizes({ body }: Part): Generator<SizeOf> {
  if (body?.form === 'box') for (const axis of ['x', 'y', 'z'] as const) yield [axis, body[axis], 'outside', 'mill'];
  if (body?.form === 'round') {
    // A bar comes drawn, ground or turned: no mill makes its diameter.
    yield ['diameter', body.diameter, 'outside', 'form'];
    yield ['length', body.length, 'outside', 'mill'];
  }
}
