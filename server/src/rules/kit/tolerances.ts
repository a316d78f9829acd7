/** What a geometric tolerance allows, and to what it is measured. */

import { featureNameOf } from '../../model/member-name';
import type { GeometricTolerance, Part } from '../../model/model';

/** Half the width of what is allowed, mm. */
export function allowedMm({ characteristic, value }: GeometricTolerance): number {
  if (characteristic !== 'distance') return value.mm / 2;
  const t = value.tolerance;
  return t?.upperMm !== undefined && t.lowerMm !== undefined ? (t.upperMm - t.lowerMm) / 2 : Number.POSITIVE_INFINITY;
}

/** What a datum letter, or a name, stands for. */
function targetOf(name: string, part: Part): string {
  return part.datums.get(name)?.target.name ?? name;
}

/** To what it is measured: the datums; of a distance, its other end. */
export function measuredFrom(t: GeometricTolerance, of: string, part: Part): readonly string[] {
  const target = (n: string) => featureNameOf(targetOf(n, part));
  if (t.characteristic === 'distance') return t.of.map((n) => target(n.name)).filter((n) => n !== of);
  return t.datums.map((d) => target(d.name));
}
