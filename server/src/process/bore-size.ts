/** Which diameters of a hole are good: from its own tolerance, its thread, or the part's general tolerance. */

import type { Hole, Part } from '../model/model';
import { ISO_273_GRADE } from '../tables/clearance';
import { itGrade } from '../tables/fits';
import { generalLinear, parseGeneralTolerance } from '../tables/general-tolerances';
import { formOf } from '../tables/thread-form';
import { minorLimits } from '../tables/thread-limits';
import type { Bore } from './cutters';

/** Of full thread height: what a tap hole may leave. OD 1621 of the US Army calls 50 … 83 % usable, 75 % usual. */
const THREAD_SHARE = { least: 0.55, most: 0.85 } as const;

/** Good diameters, mm. `plainMm` is ± for a hole that nothing says a tolerance of. */
export function boreSize(hole: Hole, part: Part, plainMm: number): Bore {
  const nominalMm = hole.diameter.mm;
  const spec = hole.thread?.spec;
  if (spec && !hole.diameterGiven) {
    const form = formOf(spec);
    const limits = form.name === '60°' ? undefined : minorLimits(spec);
    if (limits)
      return { nominalMm, fromMm: Math.min(nominalMm, limits.minMm), toMm: Math.max(nominalMm, limits.maxMm) };
    const full = form.full * spec.pitchMm;
    return {
      nominalMm,
      fromMm: Math.min(nominalMm, spec.diameterMm - THREAD_SHARE.most * full),
      toMm: Math.max(nominalMm, spec.diameterMm - THREAD_SHARE.least * full),
    };
  }
  const own = hole.diameter.tolerance;
  if (own?.upperMm !== undefined && own.lowerMm !== undefined)
    return { nominalMm, fromMm: nominalMm + own.lowerMm, toMm: nominalMm + own.upperMm };
  const cleared = hole.clearance && clearanceRange(nominalMm, hole.clearance);
  if (cleared) return cleared;
  const general = part.tolerance && parseGeneralTolerance(part.tolerance.name);
  const half = own ? 0 : ((general && generalLinear(nominalMm, general.linear, hole.diameter.text)?.value) ?? plainMm);
  return { nominalMm, fromMm: nominalMm - half, toMm: nominalMm + half };
}

/** ISO 273 gives its series the fields H12, H13, H14: a clearance hole may be wider by so much, not narrower. */
function clearanceRange(nominalMm: number, { screw, fit }: NonNullable<Hole['clearance']>): Bore | undefined {
  const wideMm = screw.startsWith('M') ? itGrade(nominalMm, ISO_273_GRADE[fit]) : undefined;
  return wideMm === undefined ? undefined : { nominalMm, fromMm: nominalMm, toMm: nominalMm + wideMm };
}
