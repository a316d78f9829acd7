/** A tool as what it may run into something with: its cut, its shank, its holder, each a cylinder about its axis. */
import { memo } from '../../memo';
import type { Shop, Tool } from '../../model/shop-model';
import { bodyOf, reachOf } from '../../model/tool-kinds';

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

export const shapeOf = memo(work);

function work(tool: Tool, shop: Shop): ToolShape {
  const { cutRadiusMm, shankRadiusMm, mostOutMm } = bodyOf(tool);
  const found = shop.holders.find((h) => h.name === tool.holder);
  const holder = found && { name: found.name, radiusMm: found.diameterMm / 2, lengthMm: found.lengthMm };
  return {
    tool,
    cutRadiusMm,
    reachMm: reachOf(tool),
    shankRadiusMm,
    ...(holder && { holder }),
    ...(tool.stickoutMm !== undefined && { outMm: tool.stickoutMm }),
    mostOutMm: tool.stickoutMm ?? mostOutMm,
  };
}
