/** Cutters wider than their necks. */
import { SAME } from '../../tolerance';
import type { InWords, Tell, ToolBase, ToolBody } from './kind';
import type { ToolMaterial, ToolReader } from './reader';

/** Wider than its neck: `tee-cutter` (also a grooving cutter), `dovetail-cutter`, `ball-undercutter`. */
export interface UndercutMill extends ToolBase {
  readonly kind: 'tee-cutter' | 'dovetail-cutter' | 'ball-undercutter';
  readonly flutes: number;
  readonly neckMm: number;
  /** Where the shop says: left out, as thick as its head where it passes, as its neck where it is gripped. */
  readonly shankMm?: number;
  readonly reachMm: number;
  readonly thicknessMm: number;
  /** Of a dovetail cutter: between its side and its face. */
  readonly angleDeg?: number;
}

export function readUndercutter<K extends UndercutMill['kind']>(
  r: ToolReader,
  kind: K,
  d: number,
  usual: { readonly material: ToolMaterial; readonly flutes: number; readonly thicknessMm?: number },
): UndercutMill & { readonly kind: K } {
  const base = r.base(d, usual.material);
  const neckMm = r.fields.size(r.node, 'neck') ?? d;
  const reachMm = r.fields.size(r.node, 'reach') ?? 0;
  const thicknessMm = usual.thicknessMm ?? r.fields.size(r.node, 'thickness') ?? 0;
  const shankMm = r.fields.size(r.node, 'shank');
  const own = { ...base, kind, flutes: r.flutes(usual.flutes), neckMm, reachMm, thicknessMm };
  return shankMm === undefined ? own : { ...own, shankMm };
}

export function checkNeck(tool: UndercutMill, tell: Tell, mm: InWords): void {
  if (tool.neckMm >= tool.diameterMm - SAME) {
    tell(
      'neck',
      `Its neck, ${mm(tool.neckMm)}, is not thinner than its head, ${mm(tool.diameterMm)}. Make it thinner.`,
    );
  }
  if (tool.shankMm !== undefined && tool.shankMm < tool.neckMm - SAME) {
    tell(
      'shank',
      `Its shank, ${mm(tool.shankMm)}, is thinner than its neck, ${mm(tool.neckMm)}. Correct one of the two.`,
    );
  }
}

export function checkHead(tool: UndercutMill, tell: Tell, mm: InWords): void {
  checkNeck(tool, tell, mm);
  if (tool.thicknessMm > tool.reachMm + SAME) {
    tell(
      'reach',
      `Its reach, ${mm(tool.reachMm)}, is less than the thickness of its head, ${mm(tool.thicknessMm)}. Correct one of the two.`,
    );
  }
}

/** A cutter on a neck is held by a shank as thick as its head is wide, where nobody says. */
export function onNeck({ diameterMm, neckMm, shankMm, reachMm }: UndercutMill): ToolBody {
  const shankRadiusMm = (shankMm ?? Math.max(neckMm, diameterMm)) / 2;
  return { cutRadiusMm: diameterMm / 2, shankRadiusMm, mostOutMm: reachMm + 2 * diameterMm };
}
