/** The limits of a size: its own, or those of the part's general tolerance. */
import type { Length, Part } from '../../model/model';
import { generalLinear, parseGeneralTolerance } from '../../tables/general-tolerances';

export interface SizeLimits {
  readonly leastMm: number;
  readonly mostMm: number;
  /** `H7`, `ISO 2768-m`. */
  readonly how: string;
}

/** Undefined where nothing says how exact it is. */
export function limitsOf(
  { mm, tolerance, text }: Pick<Length, 'mm' | 'tolerance'> & Partial<Pick<Length, 'text'>>,
  part?: Pick<Part, 'tolerance'>,
): SizeLimits | undefined {
  if (tolerance?.lowerMm !== undefined && tolerance.upperMm !== undefined)
    return { leastMm: mm + tolerance.lowerMm, mostMm: mm + tolerance.upperMm, how: tolerance.text };
  const half = generalHalfMm(mm, part, text);
  return half === undefined ? undefined : { leastMm: mm - half, mostMm: mm + half, how: part!.tolerance!.name };
}

/** ± of a size that carries no tolerance of its own; undefined where the part has no general one. `text`: as it is written. */
export function generalHalfMm(
  mm: number,
  part: Pick<Part, 'tolerance'> | undefined,
  text?: string,
): number | undefined {
  const general = part?.tolerance && parseGeneralTolerance(part.tolerance.name);
  return general ? generalLinear(Math.abs(mm), general.linear, text)?.value : undefined;
}
