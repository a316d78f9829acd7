/**
 * Tools of a shop that cannot work alone, and what they need is not on hand: a reamer without a drill a little smaller, a
 * tap without its tap drill, a boring head that nothing opens the hole for, a counterbore whose pilot has no hole.
 */

import type { Shop, Tool } from '../model/shop-model';
import { isDrill } from '../model/tool-kinds';
import { findThread } from '../tables/thread-names';
import { formatLength } from '../text/format';
import { SAME } from '../tolerance';
import { schema } from './form/schema';
import { said } from './kit/define';
import type { Finding } from './kit/rule';

/** What a reamer takes off. Common practice: 0.1 to 0.3 mm, up to 0.6 in large holes. */
const REAM_MM = [0.05, 0.6] as const;
/** Of a full thread's height, which is 1.299 P over both sides: least and most that a tap drill leaves. OD 1621 lesson 2. */
const THREAD = { fullP: 1.299038, most: 0.85, least: 0.5 } as const;

interface Need {
  readonly what: string;
  readonly fromMm: number;
  readonly toMm: number;
}

/** Hints only: another shop's drill may do. */
export function kitFindings(shop: Shop): readonly Finding[] {
  const length = (mm: number) => formatLength(Number(mm.toFixed(3)), shop.units);
  return shop.tools.flatMap((tool): Finding[] => {
    const need = needOf(tool, shop);
    if (!need) return [];
    const named = shop.names.find((n) => n.of === 'tool' && n.name === tool.name);
    return [
      said(schema, {
        severity: 'hint',
        message: `Tool ${tool.name} ${need.what}, and the shop has no drill for it. Add one of ${length(need.fromMm)} to ${length(need.toMm)}.`,
        of: [],
        span: named?.span ?? tool.span,
        facts: { tool: tool.name, from_mm: need.fromMm, to_mm: need.toMm },
      }),
    ];
  });
}

/** What it needs and does not find. */
function needOf(tool: Tool, shop: Shop): Need | undefined {
  const d = tool.diameterMm;
  switch (tool.kind) {
    case 'reamer':
      return lacking(shop, d - REAM_MM[1], d - REAM_MM[0], 'cuts only what a drill leaves');
    case 'tap': {
      const pitchMm = findThread(tool.thread)?.pitchMm;
      if (pitchMm === undefined) return undefined;
      const full = THREAD.fullP * pitchMm;
      return lacking(shop, d - THREAD.most * full, d - THREAD.least * full, 'needs a hole drilled for it');
    }
    case 'thread-mill':
      return undefined;
    case 'boring-head': {
      // A mill that goes in opens it as well.
      const opens = shop.tools.some((t) => t.kind === 'end-mill' && t.diameterMm < tool.largestMm);
      return opens ? undefined : lacking(shop, d, tool.largestMm, 'needs a hole to go into');
    }
    case 'counterbore-cutter':
      return tool.pilotMm === undefined
        ? undefined
        : lacking(shop, tool.pilotMm, tool.pilotMm + REAM_MM[1], 'needs a hole for its pilot');
    case 'end-mill':
    case 'face-mill':
    case 'corner-rounder':
    case 'engraver':
    case 'tee-cutter':
    case 'dovetail-cutter':
    case 'ball-undercutter':
    case 'slitting-saw':
    case 'drill':
    case 'spot-drill':
    case 'flat-drill':
    case 'chamfer-mill':
    case 'countersink':
      return undefined;
    default:
      return tool satisfies never;
  }
}

function lacking(shop: Shop, fromMm: number, toMm: number, what: string): Need | undefined {
  const has = shop.tools.some(
    (t) => (isDrill(t) || t.kind === 'reamer') && t.diameterMm >= fromMm - SAME && t.diameterMm <= toMm + SAME,
  );
  return has ? undefined : { what, fromMm, toMm };
}
