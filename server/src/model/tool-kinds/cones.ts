/** Cutters for rims and edges: cones, and the flat counterbore. */
import type { InWords, Tell, ToolBase } from './kind';
import type { ToolMaterial, ToolReader } from './reader';

export interface ChamferMill extends ToolBase {
  readonly kind: 'chamfer-mill' | 'countersink' | 'counterbore-cutter';
  /** Included angle; 180 for a counterbore cutter. */
  readonly angleDeg: number;
  readonly reachMm: number;
  /** Smallest diameter of the cone: what it can still start in. 0 for a point. */
  readonly tipMm: number;
  /** Of a counterbore cutter: the pilot, which must enter the hole. */
  readonly pilotMm?: number;
}

export function readCone<K extends ChamferMill['kind']>(
  r: ToolReader,
  kind: K,
  usual: ToolMaterial,
): (ChamferMill & { readonly kind: K }) | undefined {
  const d = r.diameter();
  if (d === undefined) return undefined;
  const angleDeg = r.angle('angle', 90, 179);
  const reachMm = r.size('reach', () => d, 'the diameter, common practice');
  const tipMm = r.fields.lengthFrom0(r.node, 'tip') ?? r.assume('tip', 0, 'a point', ' mm');
  return { ...r.base(d, usual), kind, angleDeg, reachMm, tipMm };
}

export function checkTip({ tipMm, diameterMm }: ChamferMill, tell: Tell, mm: InWords): void {
  if (tipMm >= diameterMm)
    tell('tip', `Its tip, ${mm(tipMm)}, is not smaller than its diameter, ${mm(diameterMm)}. Make it smaller.`);
}
