/**
 * How far a cutter's tip gives way: flutes as a core of 0.8 D, neck, shank and holder as one stepped cantilever, and the
 * machine itself as a spring where its stiffness is known.
 */

import { memo } from '../../memo';
import type { Machine, Mill } from '../../model/shop-model';
import { CUTTER_YOUNG, FLUTE_CORE } from '../../tables/cutting.data';
import { type Section, steppedCantilever } from './deflection';

export interface HeldIn {
  readonly diameterMm: number;
  readonly lengthMm: number;
  /** Along or around a shank, N: where it slips. Infinite where a screw on a flat keeps it; left out: by the shank. */
  readonly slipsAtN?: number;
}

/** At the tip, mm, under a force across it in N: in proportion to the force. */
export function bendOf(tool: Mill, stickoutMm: number, forceN: number, holder?: HeldIn): number {
  return forceN * mmPerN(tool, stickoutMm, holder);
}

const mmPerN = memo((tool: Mill, stickoutMm: number, holder?: HeldIn): number => bend(tool, stickoutMm, 1, holder), {
  size: 2,
  by: (_, stickoutMm, holder) => [stickoutMm, holder?.diameterMm, holder?.lengthMm],
});

function bend(tool: Mill, stickoutMm: number, forceN: number, holder?: HeldIn): number {
  if (tool.kind === 'engraver') return bendOfCone(tool, stickoutMm, forceN, holder);
  const flutes = Math.min(tool.fluteLengthMm, stickoutMm);
  const neck = Math.max(0, Math.min(tool.reachMm, stickoutMm) - flutes);
  const shank = Math.max(0, stickoutMm - flutes - neck);
  const young = tool.material === 'carbide' ? CUTTER_YOUNG.carbide.mPa : CUTTER_YOUNG.hss.mPa;
  return steppedCantilever(
    [
      { diameterMm: FLUTE_CORE.share * tool.diameterMm, lengthMm: flutes },
      { diameterMm: tool.neckMm ?? Math.min(tool.diameterMm, tool.shankMm), lengthMm: neck },
      { diameterMm: tool.shankMm, lengthMm: shank },
      ...ofHolder(holder),
    ],
    forceN,
    young,
  );
}

function ofHolder(holder: HeldIn | undefined): readonly Section[] {
  if (!holder) return [];
  return [{ diameterMm: holder.diameterMm, lengthMm: holder.lengthMm, youngMPa: CUTTER_YOUNG.steel.mPa }];
}

/** Steps that a cone is taken in: a hundredth of its bending lies between as many and any more. */
const STEPS = 24;

/** A point that widens up to its shank: ground to half of its round, which bends like 0.8 of it, as flutes do. */
function bendOfCone(tool: Mill, stickoutMm: number, forceN: number, holder?: HeldIn): number {
  const slope = 2 * Math.tan(((tool.angleDeg ?? 60) / 2) * (Math.PI / 180));
  const coneMm = Math.min(stickoutMm, Math.max(0, tool.shankMm - tool.diameterMm) / slope);
  const young = tool.material === 'carbide' ? CUTTER_YOUNG.carbide.mPa : CUTTER_YOUNG.hss.mPa;
  const cone = Array.from({ length: STEPS }, (_, i) => ({
    diameterMm: FLUTE_CORE.share * (tool.diameterMm + (slope * coneMm * (i + 0.5)) / STEPS),
    lengthMm: coneMm / STEPS,
  }));
  const shank = { diameterMm: tool.shankMm, lengthMm: stickoutMm - coneMm };
  return steppedCantilever([...cone, shank, ...ofHolder(holder)], forceN, young);
}

/** How far the machine itself gives way, mm; 0 where the shop does not say how stiff it is. */
export function machineGives({ stiffnessNPerMm }: Pick<Machine, 'stiffnessNPerMm'>, forceN: number): number {
  return stiffnessNPerMm ? forceN / stiffnessNPerMm : 0;
}

/** How far a tool stands out of its holder: as the shop says, or its reach and as much again as its shank is thick. */
export function stickoutOf(tool: {
  readonly stickoutMm?: number;
  readonly reachMm: number;
  readonly shankMm: number;
}): number {
  return tool.stickoutMm ?? tool.reachMm + Math.max(3, tool.shankMm / 2);
}
