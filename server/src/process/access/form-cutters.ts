/**
 * Broken edges, marks and undercuts in their set-up: where their form cutters (or along an upright edge the side of a
 * mill) stand, and whether those meet what stands round the work. Whether one is on hand is for other rules.
 */
import type { Vec3, Void } from '../../geometry/types';
import type { Feature } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import { roundUndercutMm, standsRound, type UndercutBoss, undercutBoss } from '../boss-undercuts';
import { depthBelow } from '../column';
import { endMills } from '../cutters';
import { operationsOf } from '../operations';
import { BELOW_MM } from '../room';
import type { Case } from './case';
import { standsIn } from './cutter-locations';
import { allAroundRim, alongEdge, aroundRim, besideEdge, isUpright, middleOf } from './cutter-locations-form';
import { type Task, troubleOf, tryTools } from './try-tools';
import type { Verdict } from './verdict';

const SWEPT: ReadonlySet<Void['role']> = new Set<Void['role']>(['edge', 'slope', 'countersink']);
const FORMED: ReadonlySet<Void['role']> = new Set<Void['role']>([...SWEPT, 'engraving', 'undercut']);

type Found = Pick<Verdict, 'uses'> & Partial<Pick<Verdict, 'short' | 'holder' | 'fixture'>>;

/** What the form cutters of a feature meet; nothing where none is used or on hand. */
export function formed(c: Case, feature: Feature): Found {
  const { cut, part, solid, shop, up } = c;
  const voids = cut.removes.filter((v) => FORMED.has(v.role));
  if (voids.length === 0) return { uses: [] };
  const upright = voids.filter((v) => SWEPT.has(v.role) && v.profile.type === 'straight' && isUpright(v, c));
  if (upright.length > 0) {
    // The slimmest mill meets least; a slope is wide, and cut with the one that was chosen for it.
    const mills = c.asked ? [c.asked] : [...chosenFor(feature, c), ...[...endMills(shop)].reverse()];
    return tried(c, mills, upright, (radiusMm) => upright.flatMap((v) => besideEdge(v, c, radiusMm)));
  }
  const planned = operationsOf(feature, { part, solid, shop }).find(
    (o) => o.does === 'chamfer' || o.does === 'round' || o.does === 'engrave' || o.does === 'undercut',
  );
  const round = undercutBoss(feature);
  // Of a boss a set-up names the cutter of its outside, or of its thread.
  const asked = round ? undefined : c.asked;
  const tool = asked ?? (planned && planned.does !== 'missing' ? planned.tool : undefined);
  if (!tool) return { uses: [] };
  const stands = (radiusMm: number) =>
    voids.flatMap((v) =>
      v.role === 'undercut' && round
        ? round.places.flatMap((p) => standsRound(round, p, part.size, roundAt(round, radiusMm)))
        : v.role === 'undercut'
          ? standsIn(v, c.place, up, radiusMm)
          : v.role === 'engraving'
            ? [middleOf(v, c)]
            : v.role === 'countersink'
              ? [aroundRim(v, tool) ?? middleOf(v, c)]
              : besideBreak(v, c, tool),
    );
  return tried(c, [tool], voids, stands);
}

/** At the bottom of the undercut. */
function roundAt(boss: UndercutBoss, radiusMm: number) {
  return { offMm: roundUndercutMm(boss, radiusMm), belowMm: boss.depth.mm };
}

function besideBreak(v: Void, c: Case, tool: Tool): readonly Vec3[] {
  return v.profile.type === 'straight' ? alongEdge(v, c, tool) : allAroundRim(v, tool);
}

function chosenFor(feature: Feature, inShop: Case): readonly Tool[] {
  if (feature.kind !== 'slope') return [];
  return operationsOf(feature, inShop).flatMap((o) => (o.does === 'finish' ? [o.tool] : []));
}

function tried(
  c: Case,
  tools: readonly Tool[],
  voids: readonly Void[],
  stands: (radiusMm: number) => readonly Vec3[],
): Found {
  const { up, obstacles, topMm, shop } = c;
  const place = c.cut.before;
  const deep = voids.flatMap((v) => [depthBelow(place, up, v.bounds.min), depthBelow(place, up, v.bounds.max)]);
  const tipMm = Math.max(...deep) + (voids.some((v) => SWEPT.has(v.role) && !isUpright(v, c)) ? BELOW_MM : 0);
  const task: Task = {
    up,
    get place() {
      return c.place;
    },
    body: place.body,
    obstacles,
    topMm,
    tipMm,
    does: 'form',
    leastReachMm: 0,
    stands,
  };
  const found = tryTools(tools, task, shop);
  const { use, holder, fixture } = found;
  // Behind the neck of an undercutter its shank is wide, and the work stands beside it.
  if (voids.some((v) => v.role === 'undercut'))
    return { uses: use ? [use] : [], ...troubleOf(found, tools, 'undercutter', tipMm - topMm) };
  return { uses: use ? [use] : [], ...(fixture && { fixture }), ...(holder && !fixture && { holder }) };
}
