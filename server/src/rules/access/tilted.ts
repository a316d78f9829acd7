/** access/tilted – a leaning feature needs a tilted set-up or a fourth axis. */

import { FACE_AXIS, FACE_PLANE, type Feature, type Slope } from '../../model/model';
import type { ChamferMill } from '../../model/shop-model';
import { endMills } from '../../process/cutters';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeField } from '../kit/fields';
import { capital, spanOf, trimmed } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

/** A set-up lists it: whether its angle is right is told by `access/angle`. */
function inSetup(feature: Feature, { part }: RuleContext): boolean {
  const listed = (part.setups ?? []).filter((s) => s.up && s.cuts.some((c) => c.name === feature.name));
  return feature.tilt ? listed.length > 0 : listed.some((s) => s.hold?.type === 'angle');
}

/** A straight cutter makes the slope: one with that flank, or an end mill that comes along the edge from its end. */
function cutStraight(slope: Slope, { shop, part }: RuleContext): boolean {
  const flank = shop.tools.some(
    (t): t is ChamferMill =>
      (t.kind === 'chamfer-mill' || t.kind === 'countersink') &&
      [t.angleDeg / 2, 90 - t.angleDeg / 2].some((a) => Math.abs(a - slope.angle.deg) < 0.5) &&
      t.diameterMm / 2 >= Math.min(slope.depthMm, slope.widthMm),
  );
  const axis = FACE_PLANE[slope.face].find((a) => a !== FACE_AXIS[slope.along.name].axis)!;
  const lengthMm = part.size['xyz'.indexOf(axis)]!;
  return flank || endMills(shop).some((m) => m.reachMm >= lengthMm);
}

const BAD = `part: nozzle-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet:
    kind: hole
    face: top
    at: { x: 30, y: center }
    diameter: 5
    depth: 18
    tilt: { about: y, angle: 20 }
`;

export const tilted: Rule = defineRule({
  name: 'access/tilted',
  severity: 'warning',
  summary: 'A feature is tilted: it needs a tilted set-up or a fourth axis.',
  why: 'A three-axis mill cuts a tilted hole or pocket only when the workpiece is held at that angle. That needs an angle plate, a sine bar or a tilting vise. That is another set-up, its zero is hard to set, and the drill needs a flat to start on.',
  formula:
    'The angle is that of the feature’s `tilt`. A sloped face is a hint where neither a cutter with that flank nor an end mill makes it.',
  bounds: 'Geometry: the spindle is square to the face that points up.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['    tilt: { about: y, angle: 20 }\n', '']),
  mends: 'Make the feature straight.',
  *find(context) {
    for (const feature of context.part.features) {
      if (inSetup(feature, context)) continue;
      if (feature.tilt && Math.abs(feature.tilt.angle.deg) > ROUNDING) yield { feature, tilt: feature.tilt };
      else if (feature.kind === 'slope' && !cutStraight(feature, context)) yield { feature };
    }
  },
  tell(hit) {
    const { feature } = hit;
    if ('tilt' in hit) {
      const { angle, about, span } = hit.tilt;
      return {
        message: `${capital(feature.kind)} ${feature.name} is tilted ${trimmed(Math.abs(angle.deg), 2)}° about ${about}. No face of the part points straight at the spindle then. Hold it at that angle in its own set-up (\`hold: { angle: ${trimmed(angle.deg, 2)}, about: ${about} }\`), or make it straight: another part.`,
        of: [feature.name],
        span,
        facts: { angle_deg: Math.abs(angle.deg) },
      };
    }
    const { deg } = hit.feature.angle;
    return {
      severity: 'hint',
      message: `${capital(feature.kind)} ${feature.name} has a slope of ${trimmed(deg, 2)}°. No cutter in the shop has so long a flank, or reaches along the edge. Hold the part at that angle, or step the slope with a ball cutter.`,
      of: [feature.name],
      span: spanOf(feature, 'angle'),
      facts: { angle_deg: deg },
    };
  },
  keep: (hit) => ('tilt' in hit ? hit.feature.name : undefined),
  *mend(name, { tree }) {
    yield change('Make it straight, another part', removeField(tree, name, 'tilt'));
  },
});
