/**
 * What the values of a shop say together: a tool whose flutes are longer than its reach, a holder nobody has, the same
 * pair of parallels twice. Each is a slip of the pen that would make later findings wrong.
 */
import { parseFit } from '../tables/fits';
import { formatLength } from '../text/format';
import { at, type MapNode, type Span } from '../text/tree';
import { replace } from './resolve/problem';
import type { Fields } from './shop-fields';
import type { Mill, Shop, Tool, UndercutMill } from './shop-model';

const EPSILON = 1e-6;

/** Checks one tool against itself. `node` is its map, for narrow places. */
export function checkTool(fields: Fields, tool: Tool, node: MapNode): void {
  const tell: Tell = (key, message, insteadMm) => {
    const place = at(node, key);
    const text = insteadMm === undefined ? undefined : String(round(insteadMm / fields.unitMm, 4));
    const fixes = place && text !== undefined ? { fixes: [replace(place.span, text)] } : {};
    fields.problem('form/schema', message, placeOf(node, key), fixes);
  };
  const mm = (value: number) => formatLength(value, fields.units);
  if ('fluteLengthMm' in tool && 'reachMm' in tool) checkMill(tool, tell, mm);
  if ('neckMm' in tool) checkUndercutter(tool, tell, mm);
  checkStickout(tool, tell, mm);
  if (tool.kind === 'drill' && (tool.pointDeg < 60 || tool.pointDeg > 180)) {
    tell(
      'point',
      `A drill’s point of ${round(tool.pointDeg, 1)}° is not ground: 90° to 140° is usual (flat: \`flat-drill\`).`,
    );
  }
  if (tool.kind === 'reamer' && !parseFit(tool.fit)) {
    tell('fit', 'A reamer’s `fit` is a tolerance class such as `H7`.');
  }
  if (tool.kind === 'boring-head' && tool.largestMm < tool.diameterMm - EPSILON) {
    tell('largest', `The largest bore, ${mm(tool.largestMm)}, is under the smallest, ${mm(tool.diameterMm)}.`);
  }
  if ((tool.kind === 'chamfer-mill' || tool.kind === 'countersink') && tool.tipMm >= tool.diameterMm) {
    tell('tip', `Its tip, ${mm(tool.tipMm)}, must be smaller than its diameter, ${mm(tool.diameterMm)}.`);
  }
  if (tool.kind === 'counterbore-cutter' && tool.pilotMm !== undefined && tool.pilotMm >= tool.diameterMm) {
    tell('pilot', `Its pilot, ${mm(tool.pilotMm)}, must be smaller than its diameter, ${mm(tool.diameterMm)}.`);
  }
}

/** `insteadMm`: what the field could be. */
type Tell = (key: string, message: string, insteadMm?: number) => void;

function checkStickout(tool: Tool, tell: Tell, mm: (value: number) => string): void {
  if (tool.stickoutMm === undefined) return;
  const [what, lengthMm] =
    'fluteLengthMm' in tool ? (['flutes are', tool.fluteLengthMm] as const) : (['reach is', tool.reachMm] as const);
  if (tool.stickoutMm >= lengthMm - EPSILON) return;
  const out = mm(tool.stickoutMm);
  tell(
    'stickout',
    `It stands only ${out} out of its holder, but its ${what} ${mm(lengthMm)}: the holder would grip the edges.`,
    lengthMm,
  );
}

function checkMill(tool: Mill, tell: Tell, mm: (value: number) => string): void {
  const { diameterMm, fluteLengthMm, reachMm, shankMm, cornerRadiusMm } = tool;
  if (fluteLengthMm > reachMm + EPSILON) {
    const wide = shankMm > diameterMm + EPSILON;
    const why = wide
      ? `its shank of ${mm(shankMm)} begins where its reach ends`
      : 'reach counts from the tip, past the flutes';
    tell(
      'reach',
      `Its flutes, ${mm(fluteLengthMm)}, are longer than its reach, ${mm(reachMm)}: ${why}.`,
      fluteLengthMm,
    );
  }
  if (tool.kind === 'corner-rounder') {
    if (2 * cornerRadiusMm >= diameterMm) {
      const message = `Rounding with ${mm(cornerRadiusMm)} on both sides leaves nothing of a cutter ${mm(diameterMm)} wide.`;
      tell('corner-radius', message);
    }
  } else if (cornerRadiusMm > diameterMm / 2 + EPSILON) {
    const message = `A corner radius of ${mm(cornerRadiusMm)} does not go on a cutter ${mm(diameterMm)} wide; half of that is a ball.`;
    tell('corner-radius', message, diameterMm / 2);
  }
}

function checkUndercutter(tool: UndercutMill, tell: Tell, mm: (value: number) => string): void {
  if (tool.neckMm >= tool.diameterMm - EPSILON) {
    tell('neck', `Its neck, ${mm(tool.neckMm)}, must be thinner than its head, ${mm(tool.diameterMm)}.`);
  }
  if (tool.kind !== 'ball-undercutter' && tool.thicknessMm > tool.reachMm + EPSILON) {
    tell('reach', `Its reach, ${mm(tool.reachMm)}, is less than the thickness of its head, ${mm(tool.thicknessMm)}.`);
  }
  if (tool.kind === 'dovetail-cutter' && tool.angleDeg !== undefined) {
    const topMm = tool.diameterMm - (2 * tool.thicknessMm) / Math.tan((tool.angleDeg * Math.PI) / 180);
    if (tool.neckMm > topMm + 0.01) {
      tell(
        'neck',
        `At ${mm(tool.thicknessMm)} up, its cone is only ${mm(Math.max(0, topMm))} wide: a neck of ${mm(tool.neckMm)} does not fit above it.`,
      );
    }
  }
}

/** A holder takes only what is thinner than its own nose. `node` is the tool's map. */
export function checkHeld(fields: Fields, tool: Tool, node: MapNode, holders: Shop['holders']): void {
  const holder = holders.find((h) => h.name === tool.holder);
  const thickMm = 'shankMm' in tool ? tool.shankMm : 'neckMm' in tool ? tool.neckMm : 0;
  if (!holder || holder.diameterMm > thickMm + EPSILON) return;
  const mm = (value: number) => formatLength(value, fields.units);
  const wider = holders.filter((h) => h.diameterMm > thickMm + EPSILON).sort((a, b) => a.diameterMm - b.diameterMm)[0];
  const span = placeOf(node, 'holder');
  const message = `Its shank of ${mm(thickMm)} does not go into ${holder.name}, which is ${mm(holder.diameterMm)} wide over its nose${wider ? `; \`${wider.name}\` is wider` : ''}.`;
  fields.problem('form/schema', message, span, wider ? { fixes: [replace(span, wider.name)] } : {});
}

/** The span of a field, or of what it belongs to where the field is left out. */
function placeOf(node: MapNode, key: string): Span {
  return at(node, key)?.span ?? node.span;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
