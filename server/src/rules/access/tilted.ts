/** access/tilted – a leaning feature needs a tilted set-up or a fourth axis. */

import { FACE_AXIS, FACE_PLANE, type Feature, type Incline } from '../../model/model';
import type { ChamferMill } from '../../model/shop-model';
import { endMills } from '../../process/cutters';
import { removeField, subjectOf } from '../kit/fields';
import { fact, spanOf, trimmed } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext } from '../kit/rule';

const NAME = 'access/tilted';

/** A set-up lists it: whether its angle is right is told by `access/angle`. */
function inSetup(feature: Feature, { part }: RuleContext): boolean {
  const listed = (part.setups ?? []).filter((s) => s.up && s.cuts.some((c) => c.name === feature.name));
  return feature.tilt ? listed.length > 0 : listed.some((s) => s.hold?.type === 'angle');
}

/** A straight cutter makes the slope: one with that flank, or an end mill that comes along the edge from its end. */
function cutStraight(incline: Incline, { shop, part }: RuleContext): boolean {
  const flank = shop.tools.some(
    (t): t is ChamferMill =>
      (t.kind === 'chamfer-mill' || t.kind === 'countersink') &&
      [t.angleDeg / 2, 90 - t.angleDeg / 2].some((a) => Math.abs(a - incline.angle.deg) < 0.5) &&
      t.diameterMm / 2 >= Math.min(incline.depthMm, incline.widthMm),
  );
  const axis = FACE_PLANE[incline.face].find((a) => a !== FACE_AXIS[incline.along.name].axis)!;
  const lengthMm = part.size['xyz'.indexOf(axis)]!;
  return flank || endMills(shop).some((m) => m.reachMm >= lengthMm);
}

export const tilted: Rule = {
  name: NAME,
  severity: 'warning',
  summary: 'A feature leans: it takes a tilted set-up or a fourth axis.',
  why: 'Along the spindle of a three-axis mill a leaning hole or pocket can only be cut with the part held at that angle, on an angle plate, a sine bar or in a tilting vise. That is another set-up whose zero is hard to find, and the drill needs a flat to start on.',
  formula:
    '`angle_deg` from the feature’s `tilt`. A hint for an incline that neither a cutter with that flank nor an end mill along its edge makes.',
  limits: [],
  bad: `part: nozzle-block
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
`,
  good: `part: nozzle-block
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 30 }
features:
  jet:
    kind: hole
    face: top
    at: { x: 30, y: center }
    diameter: 5
    depth: 18
`,
  mends: 'The feature set upright.',
  *find(context): Generator<Finding> {
    for (const feature of context.part.features) {
      if (inSetup(feature, context)) continue;
      const deg = feature.tilt?.angle.deg ?? 0;
      if (feature.tilt && Math.abs(deg) > 1e-9) {
        yield {
          rule: NAME,
          severity: 'warning',
          message: `It leans ${trimmed(Math.abs(deg), 2)}° about ${feature.tilt.about}, so no face of the part can look straight at the spindle: hold the part at that angle in a set-up of its own (\`hold: { angle: ${trimmed(deg, 2)}, about: ${feature.tilt.about} }\`), or set it upright.`,
          of: [feature.name],
          span: feature.tilt.span,
          related: [],
          facts: { angle_deg: fact(Math.abs(deg)) },
        };
      } else if (feature.kind === 'incline' && !cutStraight(feature, context)) {
        yield {
          rule: NAME,
          severity: 'hint',
          message: `No cutter on hand has a flank of ${trimmed(feature.angle.deg, 2)}° that long, and none reaches along the edge: hold the part at that angle, or step the slope off with a ball cutter.`,
          of: [feature.name],
          span: spanOf(feature, 'angle'),
          related: [],
          facts: { angle_deg: fact(feature.angle.deg) },
        };
      }
    }
  },
  *mend(finding, context): Generator<Fix> {
    const feature = subjectOf(finding, context.part);
    const edits = feature?.tilt && removeField(context.tree, feature.name, 'tilt');
    if (edits) yield { title: 'Set it upright', safe: false, edits };
  },
};
