/** Round the foot of a boss with an undercutter: in from beside it, round, and out again, one layer below the other. */
import { reversedEdge } from '../../geometry/2d/edge';
import { circleLoop } from '../../geometry/2d/shape-outline';
import { featureFrame } from '../../geometry/frame';
import type { Edge, Point2 } from '../../geometry/types';
import { roundUndercutMm, type UndercutBoss } from '../boss-undercuts';
import { mayClimb } from '../cutting/hands';
import type { FormCut } from '../operations/types';
import type { Cut } from '../stock/types';
import { planeOf } from './centre-area';
import { sideBySide } from './depths';
import type { Making, Shape } from './making';
import { heightsIn, volumesOf } from './volumes';
import { wayOf } from './ways';

/** A cutter starts so far clear of the boss. Common practice, no source. */
const LEAD_MM = 1;

export function undercutRound(boss: UndercutBoss, operation: FormCut, cut: Cut, m: Making): Shape {
  const { readOut, machine, asked } = m;
  const radiusMm = operation.tool.diameterMm / 2;
  const [floorZ, topZ] = heightsIn(volumesOf(operation, cut, readOut), cut, readOut);
  const [a, b] = planeOf(readOut);
  const climbs = mayClimb(machine);
  const ways = boss.places.flatMap((place) => {
    const { origin } = featureFrame(boss, asked.part.size, place);
    const edges = ledRound({ u: origin[a], v: origin[b] }, roundUndercutMm(boss, radiusMm), {
      outMm: boss.thread.spec.diameterMm / 2 + radiusMm + LEAD_MM,
    });
    return edges ? [wayOf(edges, readOut, climbs)] : [];
  });
  const thickMm = 'thicknessMm' in operation.tool ? operation.tool.thicknessMm : topZ - floorZ;
  return {
    direction: climbs ? 'climb' : 'conventional',
    where: { type: 'along', ways },
    tipsZ: sideBySide(topZ, floorZ, thickMm),
    leavesMm: 0,
    needsProgram: true,
    looks: [],
  };
}

/** With the boss to the right of the way. */
function ledRound(centre: Point2, offMm: number, { outMm }: { readonly outMm: number }): readonly Edge[] | undefined {
  const loop = circleLoop(centre, offMm);
  const round = loop && [...loop.edges].reverse().map(reversedEdge);
  const [first] = round ?? [];
  if (!round || !first) return undefined;
  const out: Point2 = {
    u: centre.u + ((first.a.u - centre.u) * outMm) / offMm,
    v: centre.v + ((first.a.v - centre.v) * outMm) / offMm,
  };
  return [{ type: 'line', a: out, b: first.a }, ...round, { type: 'line', a: first.a, b: out }];
}
