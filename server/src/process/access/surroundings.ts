/** The work about a cut, as far as a tool there can come: gathered only when it is looked at. */
import type { Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { Around, memo } from '../../memo';
import { FACE_AXIS, type Face } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { Cut, Workpiece } from '../stock/types';

export interface Places {
  /** Without the cut's own volumes, and only what a tool here can meet. */
  readonly place: Workpiece;
  /** With them: as it was before the cut. */
  readonly was: Workpiece;
}
const KEEP = 8;

export class Surroundings {
  /** Volumes gone before that a tool at this cut can come near: anywhere along the spindle, but within reach in plan. */
  readonly near: Around<Void>;
  readonly #cut: Cut;
  readonly #widestMm: number;

  constructor(cut: Cut, up: Face, shop: Shop) {
    this.#cut = cut;
    this.#widestMm = widestMm(shop);
    this.near = new Around((mm) => nearby(cut, up, mm));
  }

  /** As far as anything of a tool comes. The same objects as long as they are the same in shape. */
  get places(): Places {
    return this.placesWithin(this.#widestMm);
  }

  /** As far as `mm` in plan from the bounds of what is cut. */
  placesWithin(mm: number): Places {
    const { before, removes } = this.#cut;
    return placesIn(removes[0]!, removes, before.body, this.near.within(mm));
  }
}

const placesIn = memo(
  (_: Void, removes: readonly Void[], body: Workpiece['body'], near: readonly Void[]): Places => {
    const own = new Set(removes);
    const others = near.filter((v) => !own.has(v));
    return { place: { body, voids: [...others, ...removes] }, was: { body, voids: others } };
  },
  { size: KEEP },
);

/** How far from a cut's outline anything of a tool comes, mm: the widest holder, or a mill that stands wholly beside it. */
const widestMm = memo((shop: Shop): number => {
  const holders = shop.holders.map((h) => h.diameterMm / 2);
  const tools = shop.tools.map((t) => t.diameterMm);
  return Math.max(0, ...holders) + Math.max(0, ...tools) / 2 + 1;
});

function nearby(cut: Cut, up: Face, by: number): readonly Void[] {
  const axis = AXIS_INDEX[FACE_AXIS[up].axis];
  const [a, b] = ([0, 1, 2] as const).filter((i) => i !== axis) as [0 | 1 | 2, 0 | 1 | 2];
  return cut.before.voids.filter(({ bounds: { min, max } }) =>
    cut.removes.some(
      ({ bounds: r }) =>
        min[a] <= r.max[a] + by && max[a] >= r.min[a] - by && min[b] <= r.max[b] + by && max[b] >= r.min[b] - by,
    ),
  );
}
