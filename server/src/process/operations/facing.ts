/** The cuts that take the stock off a face: from above with the end of a wide cutter, or along it with the side of a mill. */

import type { Box } from '../../geometry/types';
import { FACE_AXIS, FACE_PLANE, type Face, type Feature, type Part, type Setup } from '../../model/model';
import type { Shop } from '../../model/shop-model';
import { stockSizeMm } from '../../model/stock';
import { isFacer } from '../../model/tool-kinds';
import { SAME_REACH_MM } from '../cutters';
import { overFace } from '../stock';
import { inHolder } from './machine';
import type { Operation } from './types';
import { roughedIn } from './widths';

/**
 * Empty for what is no face, or has nothing left on it. `left` is the box round what still stands over it when its turn
 * comes; without it, what the stock has there before anything is cut.
 */
export function facingCuts(
  name: string,
  setup: Pick<Setup, 'up'>,
  part: Part,
  shop: Shop,
  left?: Box,
): readonly Operation[] {
  if (!(name in FACE_AXIS)) return [];
  const face = name as Face;
  const offMm = overFace(face, part);
  if (offMm <= 0) return [];
  const size = left ? ([0, 1, 2] as const).map((i) => left.max[i] - left.min[i]) : stockSizeMm(part);
  const along = (axis: string) => size['xyz'.indexOf(axis)]!;
  const [lengthMm, widthMm] = FACE_PLANE[face].map(along).sort((a, b) => b - a) as [number, number];
  const mills = shop.tools.filter(isFacer);
  const ends = mills.filter((m) => m.kind === 'end-mill').sort((a, b) => b.diameterMm - a.diameterMm);
  // A face has no feature; its cuts go by its name.
  const base = { feature: { name, face } as unknown as Feature, times: 1 } as const;
  const up = setup.up?.name;
  if (!up || up === face) {
    const tool = mills.find((m) => m.kind === 'face-mill') ?? ends[0];
    if (!tool) return [{ ...base, does: 'missing', lacks: 'facing', wanted: 'face mill or end mill' }];
    return [inHolder({ ...base, does: 'face', tool, lengthMm, widthMm, depthMm: offMm }, shop)];
  }
  const heightMm = along(FACE_AXIS[up].axis);
  const wayMm = along(FACE_PLANE[face].find((axis) => axis !== FACE_AXIS[up].axis)!);
  const tool = ends.find((m) => m.reachMm >= heightMm - SAME_REACH_MM);
  if (!tool)
    return [
      { ...base, does: 'missing', lacks: 'facing', wanted: `end mill reaching ${Number(heightMm.toFixed(2))} mm` },
    ];
  const room = { neckMm: Number.POSITIVE_INFINITY, widestMm: offMm, longMm: wayMm };
  const { wideMm, leftMm } = roughedIn(room, tool, false);
  const rough = { ...base, tool, volumeMm3: wideMm * heightMm * wayMm, depthMm: heightMm, neckMm: room.neckMm, wideMm };
  const cuts: readonly Operation[] = [
    ...(wideMm > 0 ? [{ ...rough, does: 'rough' } as const] : []),
    { ...base, does: 'finish', tool, wayMm, depthMm: heightMm, wideMm: leftMm },
  ];
  return cuts.map((o) => inHolder(o, shop));
}
