/**
 * What the values of a shop say together: a tool whose flutes are longer than its reach, a holder nobody has, the same
 * pair of parallels twice. Each is a slip of the pen that would make later findings wrong.
 */

import { formatLength } from '../text/format';
import { at, type MapNode, type Span } from '../text/tree';
import { SAME } from '../tolerance';
import { replace } from './resolve/problem';
import type { Fields } from './shop-fields';
import type { Shop, Tool } from './shop-model';
import { homeOfTool } from './tool-kinds';
import type { Tell } from './tool-kinds/kind';

/** Checks one tool against itself. `node` is its map, for narrow places. */
export function checkTool(fields: Fields, tool: Tool, node: MapNode): void {
  const tell: Tell = (key, message, insteadMm) => {
    const place = at(node, key);
    const text = insteadMm === undefined ? undefined : String(round(insteadMm / fields.unitMm, 4));
    const fixes = place && text !== undefined ? { fixes: [replace(place.span, text)] } : {};
    fields.problem('form/schema', message, placeOf(node, key), fixes);
  };
  const mm = (value: number) => formatLength(value, fields.units);
  homeOfTool(tool).check(tool, tell, mm);
  checkStickout(tool, tell, mm);
}

function checkStickout(tool: Tool, tell: Tell, mm: (value: number) => string): void {
  if (tool.stickoutMm === undefined) return;
  const [what, lengthMm] =
    'fluteLengthMm' in tool ? (['flutes are', tool.fluteLengthMm] as const) : (['reach is', tool.reachMm] as const);
  if (tool.stickoutMm >= lengthMm - SAME) return;
  const out = mm(tool.stickoutMm);
  tell(
    'stickout',
    `Its stick-out is only ${out}, but its ${what} ${mm(lengthMm)}: the holder would grip the edges. Make \`stickout\` ${mm(lengthMm)}.`,
    lengthMm,
  );
}

/** A holder takes only what is thinner than its own nose. `node` is the tool's map. */
export function checkHeld(fields: Fields, tool: Tool, node: MapNode, holders: Shop['holders']): void {
  const holder = holders.find((h) => h.name === tool.holder);
  const thickMm = 'shankMm' in tool ? tool.shankMm : 'neckMm' in tool ? tool.neckMm : 0;
  if (!holder || holder.diameterMm > thickMm + SAME) return;
  const mm = (value: number) => formatLength(value, fields.units);
  const wider = holders.filter((h) => h.diameterMm > thickMm + SAME).sort((a, b) => a.diameterMm - b.diameterMm)[0];
  const span = placeOf(node, 'holder');
  const message = `Its shank of ${mm(thickMm)} does not go into ${holder.name}, which is ${mm(holder.diameterMm)} wide over its nose. ${wider ? `Write \`${wider.name}\`, which is wider.` : 'Use a wider holder.'}`;
  fields.problem('form/schema', message, span, wider ? { fixes: [replace(span, wider.name)] } : {});
}

/** The span of a field, or of what it belongs to where the field is left out. */
function placeOf(node: MapNode, key: string): Span {
  return at(node, key)?.span ?? node.span;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
