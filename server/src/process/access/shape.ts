/** A tool as what it may run into something with: its cut, its shank, its holder, each a cylinder about its axis. */
import type { Shop, Tool } from '../../model/shop-model';
import { reachOf } from '../cutters';

export interface ToolShape {
  readonly tool: Tool;
  /** Up to `reachMm` above its tip it is no thicker than this. */
  readonly cutRadiusMm: number;
  readonly reachMm: number;
  /** From there up to the holder. */
  readonly shankRadiusMm: number;
  readonly holder?: { readonly name: string; readonly radiusMm: number; readonly lengthMm: number };
  /** As the shop says; absent: what the cut needs, up to `mostOutMm`. */
  readonly outMm?: number;
  readonly mostOutMm: number;
}

/** So many shanks' thicknesses of a mill can be left standing out above its reach. Common practice, no source. */
const SHANKS_OUT = 3;
/** A drill, tap or reamer stands out of its chuck by so many diameters more than it cuts deep. Common practice, no source. */
const DIAMETERS_OUT = 2;

const kept = new WeakMap<Tool, { readonly shop: Shop; readonly made: ToolShape }>();

export function shapeOf(tool: Tool, shop: Shop): ToolShape {
  const known = kept.get(tool);
  if (known?.shop === shop) return known.made;
  const made = work(tool, shop);
  kept.set(tool, { shop, made });
  return made;
}

function work(tool: Tool, shop: Shop): ToolShape {
  const cutRadiusMm = (tool.kind === 'boring-head' ? 0 : tool.diameterMm) / 2;
  const reachMm = reachOf(tool);
  const shank = 'shankMm' in tool ? tool.shankMm / 2 : 'neckMm' in tool ? tool.neckMm / 2 : cutRadiusMm;
  const found = shop.holders.find((h) => h.name === tool.holder);
  const holder = found && { name: found.name, radiusMm: found.diameterMm / 2, lengthMm: found.lengthMm };
  return {
    tool,
    cutRadiusMm,
    reachMm,
    shankRadiusMm: Math.max(shank, cutRadiusMm),
    ...(holder && { holder }),
    ...(tool.stickoutMm !== undefined && { outMm: tool.stickoutMm }),
    mostOutMm: tool.stickoutMm ?? mostOut(tool, reachMm, shank),
  };
}

function mostOut(tool: Tool, reachMm: number, shankRadiusMm: number): number {
  switch (tool.kind) {
    case 'end-mill':
    case 'corner-rounder':
    case 'engraver':
      return reachMm + SHANKS_OUT * 2 * shankRadiusMm;
    case 'face-mill':
    case 'boring-head':
      return reachMm;
    default:
      return reachMm + DIAMETERS_OUT * tool.diameterMm;
  }
}
