import { FACE_AXIS, type Feature } from '../../spec/model';
import { fact } from '../message';
import type { Finding, Rule } from '../rule';

export const flatPart: Rule = {
  name: 'cost/flat-part',
  severity: 'hint',
  summary: 'Everything is cut straight through from one side: a flat cutting process makes it in one laying-down.',
  why: 'A plate profile on a mill wants clamps, tabs and an hour. A laser, a water jet or a router cuts it from sheet in minutes; holes with a fit or a thread are finished on the drill press.',
  formula:
    'Every feature but broken edges goes through along one axis, there is an outline or an opening to mill, and the body along it (`thickness_mm`) is no thicker than `limit_mm`.',
  limits: [
    {
      name: 'thickness',
      value: 12,
      unit: 'mm',
      what: 'Thickest plate that is commonly cut flat.',
      source: 'common practice, no source: lasers to 10–20 mm, water jets beyond',
    },
  ],
  bad: `part: side-plate
units: mm
material: aluminium-6061-t6
body: { x: 100, y: 60, z: 4 }
features:
  outline:
    kind: contour
    face: top
    path:
      - { x: 0, y: 0, round: 5 }
      - { x: 100, y: 0, round: 5 }
      - { x: 80, y: 60, round: 5 }
      - { x: 20, y: 60, round: 5 }
    depth: through
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 40, count: 2 } }
    diameter: 5.5
    depth: through
`,
  good: `part: side-plate
units: mm
material: aluminium-6061-t6
body: { x: 100, y: 60, z: 4 }
features:
  outline:
    kind: contour
    face: top
    path:
      - { x: 0, y: 0, round: 5 }
      - { x: 100, y: 0, round: 5 }
      - { x: 80, y: 60, round: 5 }
      - { x: 20, y: 60, round: 5 }
    depth: through
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    pattern: { line: { x: 40, count: 2 } }
    diameter: 5.5
    depth: through
    counterbore: { diameter: 10, depth: 1.5 }
`,
  *find(context): Iterable<Finding> {
    const { part, length } = context;
    const cuts = part.features.filter((f) => f.kind !== 'chamfer' && f.kind !== 'round');
    const first = cuts[0];
    if (!first || part.broken.size > 0 || part.body?.form !== 'box') return;
    const { axis } = FACE_AXIS[first.face];
    const thickness = part.size['xyz'.indexOf(axis)]!;
    const limit = context.limit('thickness');
    if (thickness > limit || !cuts.every((f) => isFlat(f, axis)) || !cuts.some((f) => f.kind !== 'hole')) return;
    const finish = cuts.filter(needsFinish);
    yield {
      rule: 'cost/flat-part',
      severity: 'hint',
      message: `${cuts.length === 1 ? 'Its one feature goes' : `All ${cuts.length} features go`} straight through ${length(thickness)} along ${axis}: a laser, water jet or router cuts this from sheet in one laying-down (to about ${length(limit)}, a rule of thumb)${finish.length > 0 ? `, and ${finish.map((f) => `\`${f.name}\``).join(', ')} would be finished afterwards` : ''}.`,
      of: [],
      span: part.nameSpan,
      related: finish.map((f) => ({
        span: f.nameSpan,
        message: 'finished afterwards: a thread, a fit or a close tolerance',
      })),
      facts: { features: cuts.length, thickness_mm: fact(thickness), limit_mm: limit, finish: finish.length },
    };
  },
};

function isFlat(feature: Feature, axis: string): boolean {
  if (feature.tilt || feature.from || FACE_AXIS[feature.face].axis !== axis) return false;
  switch (feature.kind) {
    case 'hole':
      return feature.depth.through && !feature.counterbore && !feature.countersink;
    case 'pocket':
      return feature.depth.through && feature.islands.length === 0 && feature.floorRadius.mm === 0;
    case 'slot':
      return feature.depth.through && !feature.tee && !feature.dovetail;
    case 'contour':
    case 'step':
      return feature.depth.through;
    default:
      return false;
  }
}

/** Closer than flat cutting holds, mm either way. */
const CLOSE = 0.1;

function needsFinish(feature: Feature): boolean {
  if (feature.kind !== 'hole') return false;
  const { tolerance } = feature.diameter;
  const band = (tolerance?.upperMm ?? CLOSE) - (tolerance?.lowerMm ?? -CLOSE);
  return feature.thread !== undefined || tolerance?.fit !== undefined || band < 2 * CLOSE;
}
