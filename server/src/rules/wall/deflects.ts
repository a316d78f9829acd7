/** wall/deflects – a wall or floor that moves under the finishing cut by more than it may. */

import type { Wall } from '../../geometry/types';
import { materialOf } from '../../model/material-of';
import type { Feature, Part } from '../../model/model';
import { wallForceN } from '../../process/cutting/conditions';
import { heldEdges, type Plate, plateDeflection } from '../../process/cutting/plates';
import { operationsOf } from '../../process/operations';
import { machineFor } from '../../process/operations/machine';
import { type Priced, priceOf } from '../../process/operations/priced';
import { cutsOf, timelineOf } from '../../process/stock';
import type { Material } from '../../tables/materials';
import { ROUNDING } from '../../tolerance';
import { defineRule } from '../kit/define';
import { roundUp } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { sizesOf } from '../kit/sizes';
import { heldWords, plateOf } from './plates';
import { slender } from './slender';
import { thicken } from './thicken';
import { thin } from './thin';
import { canBend, pairsOf, placesOf, saysOf, seenAs, sidesOf, wallsBelow, whereOf } from './walls';

const NAME = 'wall/deflects';

interface Moving {
  readonly wall: Wall;
  readonly plate: Plate;
  readonly forceN: number;
  readonly tool: string;
  readonly deflectionMm: number;
  readonly allowedMm: number;
}

function* moving(context: RuleContext): Generator<Moving> {
  const { part, shop, limit } = context;
  const material = materialOf(part);
  const machine = shop.machines[0];
  if (!material || !machine) return;
  for (const wall of wallsBelow(context, limit('look'), { bending: true })) {
    if (wall.type === 'wall' && !canBend(wall)) continue;
    // A narrow place between two curves is no wall that bends; a wall thinner than any is told of already.
    if (wall.lengthMm <= wall.thicknessMm || (wall.heightMm <= 0 && wall.type === 'wall')) continue;
    if (wall.thicknessMm < context.limitOf(thin, 'thickness')) continue;
    const cut = finishing(wall, context, material);
    if (!cut?.milling || !('tool' in cut.operation)) continue;
    const allowedMm = allowedFor(wall, part) ?? limit('allowed');
    const plate = plateOf(wall, context);
    if (!plate) continue;
    const forceN = pressesOn(wall, plate, cut, material);
    const deflectionMm = plateDeflection(plate, forceN, material.youngMPa);
    // What nothing holds is no wall but a piece of its own, and told of there.
    if (deflectionMm === undefined || deflectionMm <= allowedMm + ROUNDING) continue;
    yield { wall, plate, forceN, tool: cut.operation.tool.name, deflectionMm, allowedMm };
  }
}

/** The finishing cut of the one of its sides that pushes harder; where set-ups tell, of the one cut last: before it there is no wall. */
function finishing(wall: Wall, context: RuleContext, material: Material): Priced | undefined {
  const { part, shop, solid } = context;
  let hardest: Priced | undefined;
  for (const feature of lastOf(
    sidesOf(wall, part).map((s) => s.feature),
    context,
  )) {
    const operation = operationsOf(feature, { part, solid, shop }).find((o) => o.does === 'finish');
    const machine = machineFor(part, shop, feature.name);
    const priced = operation && machine && priceOf(operation, material, machine);
    if (priced && (priced.milling?.load.resultantN ?? 0) > (hardest?.milling?.load.resultantN ?? 0)) hardest = priced;
  }
  return hardest;
}

/** Those cut last of all; all of them without set-ups, or where one is not listed. */
function lastOf(features: readonly Feature[], { part, solid }: RuleContext): readonly Feature[] {
  if (!part.setups || features.length < 2) return features;
  const timeline = timelineOf(part, solid);
  const when = features.map((f) => cutsOf(timeline, f).at(-1));
  if (when.some((c) => c === undefined)) return features;
  const order = when.map((c) => c!.setup * 1e6 + c!.order);
  const last = Math.max(...order);
  return features.filter((_, i) => order[i] === last);
}

/** N: at the top of a wall, as the edges pass along its height; on a floor, what the helix lifts it with. */
function pressesOn(wall: Wall, plate: Plate, { milling, operation }: Priced, material: Material): number {
  if (!milling || !('tool' in operation)) return 0;
  if (wall.type !== 'wall') return milling.load.axialN;
  const { tool } = operation;
  if (!('cornerRadiusMm' in tool)) return milling.load.normalN;
  return wallForceN(material, tool, milling, Math.min(wall.heightMm, ...plate.sidesMm));
}

/** Half of the closest tolerance that a side of it carries. */
function allowedFor(wall: Wall, part: Part): number | undefined {
  const features = new Set(sidesOf(wall, part).map((s) => s.feature));
  let least: number | undefined;
  for (const { feature, tolerance } of sizesOf(part)) {
    if (!feature || !features.has(feature) || tolerance.upperMm === undefined || tolerance.lowerMm === undefined)
      continue;
    const half = (tolerance.upperMm - tolerance.lowerMm) / 2;
    if (least === undefined || half < least) least = half;
  }
  return least;
}

/** How thick it would have to be: a wall is as stiff as the cube of its thickness. */
function neededMm({ wall, deflectionMm, allowedMm }: Moving): number {
  return wall.thicknessMm * Math.cbrt(deflectionMm / allowedMm);
}

export const deflects: Rule = defineRule({
  name: NAME,
  severity: 'warning',
  summary: 'A thin wall or floor moves under the finishing cut by more than it may.',
  why: 'A thin wall moves away from the cutter and springs back behind it. The wall comes out thicker at the top, or the floor bulged. Lighter cuts and a sharp cutter help. Finish one side while the other is still solid. Twice the thickness bends an eighth as much.',
  formula:
    'The force comes from Kienzle’s law along the engaged edges of the finishing cut. It is taken on the side that the set-ups cut last: before that there is no wall. The force pushes the top of a wall, or lifts a floor by the helix. Wall and floor are plates. They are held where they meet material twice as thick. The force acts where they bend most: at a free corner or in the middle of a free edge. Deflection = α F b² / D, with D = E t³ / 12 (1 − 0.33²). For plates held all round, α is from table 37 of Timoshenko and Woinowsky-Krieger. For plates with free edges it is worked out by the method of Ritz. It is compared with half the closest tolerance of the wall’s sides, or with `allowed`.',
  limits: [
    {
      name: 'allowed',
      value: 0.05,
      unit: 'mm',
      what: 'How far a wall without a tolerance of its own may move.',
      source: 'common practice, no source',
    },
    {
      name: 'look',
      value: 3,
      unit: 'mm',
      what: 'Thicker walls are not checked.',
      source: 'common practice, no source: what is thicker stands by itself',
    },
  ],
  bad: `part: fin
units: mm
material: pom-c
body: { x: 80, y: 40, z: 20 }
features:
  left-side: { kind: pocket, face: top, at: { x: 20.9, y: center }, size: { x: 34, y: 30 }, corner-radius: 5, depth: 12 }
  right-side: { kind: pocket, face: top, at: { x: 57.1, y: center }, size: { x: 34, y: 30 }, corner-radius: 5, depth: 12 }
`,
  good: `part: fin
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 40, z: 20 }
features:
  left-side: { kind: pocket, face: top, at: { x: 20, y: center }, size: { x: 32, y: 30 }, corner-radius: 5, depth: 8 }
  right-side: { kind: pocket, face: top, at: { x: 56, y: center }, size: { x: 32, y: 30 }, corner-radius: 5, depth: 8 }
`,
  mends: 'Make the wall thicker: a smaller feature, or a moved one.',
  under: [slender.name],
  *find(context) {
    const all = new Map([...moving(context)].map((m) => [m.wall, m]));
    const worst = (wall: Wall) => -(all.get(wall)?.deflectionMm ?? 0);
    for (const { wall } of pairsOf([...all.keys()], worst)) yield all.get(wall)!;
  },
  tell(found, { part, length, about }) {
    const { wall, plate, forceN, tool, deflectionMm, allowedMm } = found;
    return {
      message: `The ${wall.type} ${whereOf(wall, part)} is ${about(wall.thicknessMm)} thick and ${heldWords(heldEdges(plate))}. The finishing cut (${tool}, ${Math.round(forceN)} N) bends it ${about(deflectionMm, allowedMm)}; ${length(allowedMm)} is allowed. Make it ${length(roundUp(neededMm(found), part.units))} thick, or use lighter cuts.`,
      thing: `${wall.type} ${whereOf(wall, part)}`,
      has: about(deflectionMm, allowedMm),
      needs: `${length(allowedMm)} or less`,
      ...placesOf(wall, part),
      facts: {
        deflection_mm: deflectionMm,
        allowed_mm: allowedMm,
        thickness_mm: wall.thicknessMm,
        force_n: Math.round(forceN),
        held_edges: heldEdges(plate),
        along_mm: plate.sidesMm[0],
        across_mm: plate.sidesMm[1],
        needed_mm: neededMm(found),
        tool,
      },
      says: [saysOf(wall, 'warning', 0)],
    };
  },
  keep: (found) => ({ wall: seenAs(found.wall), neededMm: neededMm(found) }),
  mend: ({ wall, neededMm: needed }, context) => thicken(wall, needed, context),
});
