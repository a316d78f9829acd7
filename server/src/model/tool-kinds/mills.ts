/** Cutters that cut on their side and their end, on a shank. */
import { SAME } from '../../tolerance';
import type { InWords, Tell, ToolBase } from './kind';
import type { ToolMaterial, ToolReader } from './reader';

/** Cuts on its side and (but for `face-mill`) its end. */
export interface Mill extends ToolBase {
  readonly kind: 'end-mill' | 'face-mill' | 'corner-rounder' | 'engraver';
  readonly flutes: number;
  readonly fluteLengthMm: number;
  /** From the tip to where something wider than the cut begins. */
  readonly reachMm: number;
  readonly shankMm: number;
  /** Of a cutter on a neck, between its edges and its shank; left out: as thick as the cut, no thicker than the shank. */
  readonly neckMm?: number;
  /** 0 square, D/2 ball. For a corner-rounder: the radius it makes on an outside edge. */
  readonly cornerRadiusMm: number;
  /** Of an end mill, from least to most: as the shop says, or what is usual. Left out: straight teeth. */
  readonly helixDeg?: readonly [low: number, high: number];
  /** Of an end mill: its end edges meet, and it goes straight down. */
  readonly centreCutting?: boolean;
  /** Of an end mill: its teeth are wavy and break the chips; they leave grooves on a wall, which another mill cuts off. */
  readonly roughing?: true;
  /** Of an end mill: the steepest ramp or helix that it goes down. */
  readonly rampDeg?: number;
  /** Of an end mill: the smallest hole that it opens going down a helix. */
  readonly leastHoleMm?: number;
  /** Of an end mill: how far its sides lean from its axis; `diameterMm` is then that of its tip. */
  readonly taperDeg?: number;
  /** Of an engraver: included angle of its point; `diameterMm` is then the width of its tip. */
  readonly angleDeg?: number;
}

interface Usual {
  readonly fluteLengthMm: number;
  readonly reachMm: number;
  readonly flutes: number;
  readonly material: ToolMaterial;
  readonly leastShankMm?: number;
  readonly cornerRadiusMm?: number;
  readonly shankMm?: () => number;
}

export function readMill<K extends Mill['kind']>(
  r: ToolReader,
  kind: K,
  d: number,
  usual: Usual,
): Mill & { readonly kind: K } {
  const { fluteLengthMm, reachMm } = usual;
  const cornerRadiusMm =
    usual.cornerRadiusMm ??
    r.fields.lengthFrom0(r.node, 'corner-radius') ??
    r.assume('corner-radius', 0, 'a square corner', ' mm');
  const shankMm = r.shank(d, usual.leastShankMm, usual.shankMm);
  const flutes = r.flutes(usual.flutes);
  return { ...r.base(d, usual.material), kind, flutes, fluteLengthMm, reachMm, shankMm, cornerRadiusMm };
}

export function checkFlutes(tool: Mill, tell: Tell, mm: InWords): void {
  const { diameterMm, fluteLengthMm, reachMm, shankMm } = tool;
  if (fluteLengthMm > reachMm + SAME) {
    const wide = shankMm > diameterMm + SAME;
    const why = wide
      ? `its shank of ${mm(shankMm)} begins where its reach ends`
      : 'reach counts from the tip, past the flutes';
    tell(
      'reach',
      `Its flutes, ${mm(fluteLengthMm)}, are longer than its reach, ${mm(reachMm)}: ${why}. Correct one of the two.`,
      fluteLengthMm,
    );
  }
}

export function checkMill(tool: Mill, tell: Tell, mm: InWords): void {
  checkFlutes(tool, tell, mm);
  const { diameterMm, cornerRadiusMm } = tool;
  if (cornerRadiusMm > diameterMm / 2 + SAME) {
    const message = `A corner radius of ${mm(cornerRadiusMm)} does not go on a cutter ${mm(diameterMm)} wide; half of that is a ball.`;
    tell('corner-radius', message, diameterMm / 2);
  }
}
