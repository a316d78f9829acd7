/** What stands behind a screw's name in a hole: the numbers taken from it and what the thread made of them holds. */

import { threadedBoss } from '../model/feature-kinds';
import { materialOf } from '../model/material-of';
import type { Feature, Hole } from '../model/model';
import { type Boss, threadingOf } from '../process/boss-threads';
import { boresOf } from '../process/drilling';
import { millAsked } from '../process/operations/boss-thread';
import { boreOf, tapsOfHole, threadShare } from '../process/tapping';
import type { ReadPart } from '../rules/judging';
import { clearanceHole, fitText } from '../tables/clearance';
import { countersinkFor, din74CountersinkMm, headFor } from '../tables/heads';
import { isUnified, SERIES } from '../tables/thread-form';
import { minorLimits } from '../tables/thread-limits';
import { engaged, STRENGTH_SOURCE } from '../tables/thread-strength';
import { threadUndercut } from '../tables/thread-undercuts';

/** ISO 898-1 property class 8.8. */
const EVERYDAY_SCREW_MPA = 800;

const mm = (value: number, digits = 3) => `${Number(value.toFixed(digits))} mm`;
const kN = (newton: number) => `${Number((newton / 1000).toFixed(1))} kN`;

/** A thread: pitch, tap drill, its limits and share; then how much of it there is and what that holds. */
export function threadLines(hole: Hole, { part, solid, shop }: ReadPart): readonly string[] {
  const spec = hole.thread?.spec;
  if (!spec) return [];
  const share = threadShare(spec, hole.diameter.mm, tapsOfHole(hole, shop));
  const limits = minorLimits(spec);
  const name = spec.tapDrillName ? ` (${spec.tapDrillName})` : '';
  const lines = [
    `${spec.designation}, ${SERIES[spec.series].text}${spec.leftHand ? ', left-hand' : ''}: pitch ${mm(spec.pitchMm)}, tap drill ${mm(spec.tapDrillMm)}${name}. ${spec.source}.`,
    `Bored to ${mm(hole.diameter.mm)}${share.percent === undefined ? '' : ` it has ${Math.round(share.percent)} % of full thread, ${share.by}`}; ${limits.tolerance} allows ${mm(limits.minMm)} to ${mm(limits.maxMm)} (${limits.source}).`,
  ];
  const drilled = boresOf(hole, part, solid).map((b) => b.drilledMm);
  const lengthMm = Math.min(hole.threadDepth?.mm ?? Number.POSITIVE_INFINITY, ...drilled);
  if (drilled.length === 0 || !Number.isFinite(lengthMm) || lengthMm <= 0) return lines;
  lines.push(`${mm(lengthMm)} of thread in material: ${Number((lengthMm / spec.diameterMm).toFixed(2))} × D.`);
  const material = materialOf(part);
  if (material?.ultimateMPa === undefined) return lines;
  const pull = engaged(spec, boreOf(hole, shop), lengthMm, {
    screwMPa: EVERYDAY_SCREW_MPA,
    materialMPa: material.ultimateMPa,
  });
  if (!pull) return lines;
  const first = pull.stripsN < pull.breaksN ? 'the thread strips first' : 'the screw breaks first';
  lines.push(
    `It strips at about ${kN(pull.stripsN)} (${material.name}, ${material.ultimateMPa} N/mm²); a class 8.8 screw breaks at ${kN(pull.breaksN)}: ${first}. Equal at ${mm(pull.equalMm, 1)} of full thread. ${STRENGTH_SOURCE}. At least material, one even pull: no proof of a joint.`,
  );
  return lines;
}

/** A thread on a boss: what is milled, and what the die or thread mill then cuts. */
export function bossThreadLines(feature: Feature, { part, shop }: Pick<ReadPart, 'part' | 'shop'>): readonly string[] {
  const boss = threadedBoss(feature);
  const [shape] = boss?.shapes ?? [];
  if (!boss || shape?.type !== 'circle') return [];
  const { spec, designation, deep } = boss.thread;
  const { diameter: d } = shape;
  const [low, high] = [d.tolerance?.lowerMm ?? 0, d.tolerance?.upperMm ?? 0].map((off) => mm(d.mm + off));
  return [
    `${designation}, ${SERIES[spec.series].text}${spec.leftHand ? ', left-hand' : ''}: pitch ${mm(spec.pitchMm)}. ${spec.source}.`,
    `The boss is milled to ${low} to ${high} (${isUnified(spec) ? 'ASME B1.1' : 'ISO 965-1'}), toward the small end for a die.`,
    `Full thread for ${mm(deep.mm)} from its end, ${Number((deep.mm / spec.pitchMm).toFixed(1))} turns${MADE_BY[threadingOf(boss, shop, millAsked(feature, part, shop)).by]}.`,
    ...undercutLines(boss),
  ];
}

/** What the standard says of it beside the sizes that are cut. */
function undercutLines({ thread: { spec, undercut } }: Boss): readonly string[] {
  if (!undercut) return [];
  const found = undercut.source
    ? threadUndercut(spec, undercut.source === 'ISO 4755' ? 'regular' : 'short')
    : undefined;
  const more = found
    ? ` ${found.source} allows ${mm(found.leastMm)} to ${mm(found.mostMm)} wide, and about R${Number(found.radiusMm.toFixed(2))} at the shoulder.`
    : '';
  return [`Its undercut is ${mm(undercut.width.mm)} wide and leaves ⌀${mm(undercut.diameter.mm)}.${more}`];
}

const MADE_BY = { die: ' of the die', mill: ', milled round it', nothing: '' } as const;

/** A clearance hole in each of its fits, the one that is meant first named. */
export function clearanceLines(hole: Hole): readonly string[] {
  const { clearance } = hole;
  if (!clearance) return [];
  const own = clearanceHole(clearance.screw, clearance.fit);
  if (!own) return [];
  const each = (['fine', 'medium', 'coarse'] as const).flatMap((fit) => {
    const found = clearanceHole(clearance.screw, fit);
    const drill = found?.drill ? ` (drill ${found.drill})` : '';
    return found
      ? [`${fit === 'fine' ? 'close' : fit === 'medium' ? 'normal' : 'loose'} ${mm(found.diameterMm)}${drill}`]
      : [];
  });
  return [
    `Clearance for ${own.screw}: ${mm(own.diameterMm)}, ${fitText(own)}. There are ${each.join(', ')}. ${own.source}.`,
  ];
}

/** The head that sits in a counterbore or countersink named by its screw, and what older tables have. */
export function recessLines(hole: Hole, recess: 'counterbore' | 'countersink'): readonly string[] {
  const screw = hole[recess]?.screw;
  const head = screw && headFor(screw, recess === 'counterbore' ? 'cap' : 'flat');
  if (!screw || !head) return [];
  const made = hole[recess]!.diameter;
  const lines = [
    `${screw} ${head.type === 'cap' ? 'cap' : 'flat'} head: diameter ${mm(head.diameterMm)}${head.type === 'flat' ? ' at its sharp edge' : ''}, ${mm(head.heightMm, 2)} high (${head.source}). ${made.from}: ${mm(made.mm)}.`,
  ];
  const older = recess === 'countersink' ? din74CountersinkMm(screw) : undefined;
  const sharp = older === undefined ? undefined : countersinkFor(screw);
  if (older !== undefined && sharp)
    lines.push(
      `DIN 74-1 form B has ${mm(older)} for heads whose edge is not sharp: the standards differ by ${mm(Math.abs(sharp.diameterMm - older))}. Give the size itself, \`{ diameter: ${older}, angle: 90 }\`, where the screws are of that kind.`,
    );
  return lines;
}
