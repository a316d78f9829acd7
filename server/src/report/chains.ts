/** Dimension chains as lines of text: every link with what it may be off, and where that number comes from. */

import { type Adding, type Chained, chainsOf, type Link, likelyMm, type Toleranced, worstMm } from '../process/stackup';
import type { ReadPart } from '../rules/judging';
import { formatLength } from '../text/format';
import { ROUNDING } from '../tolerance';

type Units = 'mm' | 'in';

/** All of a part's. */
export function partChains({ part, solid, shop }: ReadPart): readonly Chained[] {
  return part.body ? chainsOf(part, solid, shop) : [];
}

/** `left to pin along x, 20 ±0.05`. */
export function chainTitle({ ends, axis, text }: Toleranced): string {
  return `${ends[0]} to ${ends[1]} along ${axis}, ${text}`;
}

/** As drawn, then as set up; each link on a line of its own, then what they come to. */
export function chainLines({ of, drawn, asSetUp }: Chained, units: Units, adding: Adding): readonly string[] {
  return [
    ...sideLines('as dimensioned', drawn, of, units, adding),
    ...sideLines('as set up', asSetUp, of, units, adding),
  ];
}

function sideLines(
  how: string,
  links: readonly Link[] | undefined,
  of: Toleranced,
  units: Units,
  adding: Adding,
): readonly string[] {
  if (!links || links.length === 0) return [];
  const length = (mm: number) => formatLength(mm, units);
  const verdict = (mm: number) => (mm <= of.allowedMm + ROUNDING ? 'within' : 'over');
  const [worst, likely] = [worstMm(links), likelyMm(links)];
  return [
    ...links.map((l) => `${how}: ${l.what} ±${length(l.halfMm)} (${l.source})`),
    `${how}: likely ±${length(likely)}, ${verdict(likely)} the ±${length(of.allowedMm)} allowed; at worst ±${length(worst)}, ${verdict(worst)}; checked ${adding === 'worst' ? 'at worst' : 'by what is likely'}`,
  ];
}
