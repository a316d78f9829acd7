/** The work about a cut, as far as a tool there can come: gathered only when it is looked at. */
import type { Void } from '../../geometry/types';
import { AXIS_INDEX } from '../../geometry/vector';
import { FACE_AXIS, type Face } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import type { Cut, Workpiece } from '../stock/types';

interface Places {
  readonly body: Workpiece['body'];
  readonly removes: readonly Void[];
  readonly near: readonly Void[];
  /** Without the cut's own volumes, and only what a tool here can meet. */
  readonly place: Workpiece;
  /** With them: as it was before the cut. */
  readonly was: Workpiece;
}
const kept = new WeakMap<Void, Places[]>();
const KEEP = 8;

export class Surroundings {
  private found: readonly Void[] | undefined;
  /** Somebody asked for the work itself. */
  looked = false;

  constructor(
    private readonly cut: Cut,
    private readonly up: Face,
    private readonly shop: Shop,
  ) {}

  /** Volumes gone before that a tool at this cut can come near: anywhere along the spindle, but within its reach in plan. */
  get near(): readonly Void[] {
    this.found ??= nearby(this.cut, this.up, widestMm(this.shop));
    return this.found;
  }

  /** The same objects as long as they are the same in shape. */
  get places(): Places {
    this.looked = true;
    const { before, removes } = this.cut;
    const first = removes[0]!;
    const known = kept.get(first) ?? [];
    const hit = known.find((k) => k.body === before.body && same(k.removes, removes) && same(k.near, this.near));
    if (hit) return hit;
    const own = new Set(removes);
    const others = this.near.filter((v) => !own.has(v));
    const place = { body: before.body, voids: [...others, ...removes] };
    const was = { body: before.body, voids: others };
    const made: Places = { body: before.body, removes, near: this.near, place, was };
    kept.set(first, [...known.slice(1 - KEEP), made]);
    return made;
  }
}

export function same(a: readonly unknown[], b: readonly unknown[]): boolean {
  return a.length === b.length && a.every((x, i) => x === b[i]);
}

const widest = new WeakMap<Shop, number>();

/** How far from a cut's outline anything of a tool comes, mm: the widest holder, or a mill that stands wholly beside it. */
function widestMm(shop: Shop): number {
  let mm = widest.get(shop);
  if (mm === undefined) {
    const holders = shop.holders.map((h) => h.diameterMm / 2);
    const tools = shop.tools.map((t) => t.diameterMm);
    mm = Math.max(0, ...holders) + Math.max(0, ...tools) / 2 + 1;
    widest.set(shop, mm);
  }
  return mm;
}

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
