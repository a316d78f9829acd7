/** Cutters wider at their face than above: dovetails. */
import { angle, length, map, optional } from '../schema/common';
import { diameter, flutes, gripped, kind, neck, shank, toothed } from './fields';
import { byReach, noDisc, type ToolKindHome } from './kind';
import type { ToolReader } from './reader';
import { checkHead, onNeck, readUndercutter, type UndercutMill } from './undercutters';

const schema = map(
  {
    kind: kind('dovetail-cutter', 'Wider at its face than above: dovetails.'),
    diameter: diameter('Largest diameter, at its face.', '16'),
    neck,
    thickness: length('Height of the cutting cone.', { example: '6' }),
    angle: optional(angle('Between its side and its face.', { example: '60', fallback: '60' })),
    reach: length('From its face to where something wider than the neck begins.', { example: '18' }),
    flutes: flutes('6'),
    shank: shank('as thick as its head where it passes, as its neck where it is gripped'),
    ...toothed,
    ...gripped('hss'),
  },
  'A dovetail cutter.',
);

function read(r: ToolReader) {
  const d = r.diameter();
  if (d === undefined) return undefined;
  return {
    ...readUndercutter(r, 'dovetail-cutter', d, { material: 'hss', flutes: 6 }),
    angleDeg: r.angle('angle', 60, 90),
  };
}

export const dovetailCutter: ToolKindHome<UndercutMill & { readonly kind: 'dovetail-cutter' }> = {
  form: 'head',
  schema,
  read,
  check: (tool, tell, mm) => {
    checkHead(tool, tell, mm);
    if (tool.angleDeg === undefined) return;
    const topMm = tool.diameterMm - (2 * tool.thicknessMm) / Math.tan((tool.angleDeg * Math.PI) / 180);
    if (tool.neckMm <= topMm + 0.01) return;
    tell(
      'neck',
      `At ${mm(tool.thicknessMm)} up, its cone is only ${mm(Math.max(0, topMm))} wide, and its neck ${mm(tool.neckMm)}. Make \`neck\` ${mm(Math.max(0, topMm))} or less.`,
    );
  },
  reachMm: byReach,
  body: onNeck,
  disc: noDisc,
};
