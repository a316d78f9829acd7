/** How much thread a screw needs in a material: what rules on tapped holes and on joints share. */

import { materialOf } from '../../model/material-of';
import type { Part } from '../../model/model';
import type { Thread } from '../../tables/thread-form';
import { type Engaged, engaged } from '../../tables/thread-strength';
import type { Limit } from './rule';

type Holding = 'steel' | 'aluminium' | 'plastic';

const THUMB: Readonly<Record<Holding, number>> = { steel: 1, aluminium: 1.5, plastic: 2 };

/** What the thread is cut in, as far as it matters how many turns hold: light alloys and other soft metals count as aluminium. */
export function holding(part: Part): Holding | undefined {
  const material = materialOf(part);
  if (!material) return undefined;
  if (material.class !== 'metal') return 'plastic';
  return material.group === 'P' || material.group === 'M' || material.group === 'S' || material.group === 'K'
    ? 'steel'
    : 'aluminium';
}

export const ENGAGEMENT_LIMITS: readonly Limit[] = [
  {
    name: 'margin',
    value: 1.25,
    unit: 'ratio',
    what: 'Margin over the length at which screw and thread are equally strong: turns share the load unevenly.',
    source: 'common practice, no source; the formula is that of Machinery’s Handbook, after FED-STD-H28',
  },
  {
    name: 'steel',
    value: THUMB.steel,
    unit: 'ratio',
    what: 'Shortest thread in steel and cast iron, in diameters.',
    source: 'common practice, no source (1 to 1.5)',
  },
  {
    name: 'aluminium',
    value: THUMB.aluminium,
    unit: 'ratio',
    what: 'Shortest thread in aluminium, brass and other soft metals, in diameters.',
    source: 'common practice, no source (1.5 to 2)',
  },
  {
    name: 'plastic',
    value: THUMB.plastic,
    unit: 'ratio',
    what: 'Shortest thread in plastics and laminates, in diameters.',
    source: 'common practice, no source',
  },
];

interface Asked {
  readonly thread: Thread;
  readonly boreMm: number;
  readonly lengthMm: number;
  readonly part: Part;
  readonly screwMPa: number;
}

/** Loads of a thread so long, where the strength of the material is known. */
export function pullOf({ thread, boreMm, lengthMm, part, screwMPa }: Asked): Engaged | undefined {
  const materialMPa = materialOf(part)?.ultimateMPa;
  return materialMPa === undefined ? undefined : engaged(thread, boreMm, lengthMm, { screwMPa, materialMPa });
}

/** The shorter of what the rule of thumb and the strength ask for; a shop's own rule of thumb goes before both. */
export function neededMm(asked: Asked, material: Holding, limit: (name: string) => number): number {
  const thumb = limit(material);
  const pull = thumb === THUMB[material] ? pullOf(asked) : undefined;
  const thumbMm = thumb * (asked.thread.screw ?? asked.thread).diameterMm;
  return pull ? Math.min(thumbMm, limit('margin') * pull.equalMm) : thumbMm;
}
