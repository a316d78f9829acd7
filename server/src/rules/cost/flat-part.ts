import type { Feature } from '../../model/model';
import { FLAT_CUTTING_SOURCE } from '../../tables/flat-cutting';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import type { Rule } from '../kit/rule';
import { flatBlankOf } from './flat';
import { comparison } from './flat-words';

const BAD = `part: side-plate
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
`;

export const flatPart: Rule = defineRule({
  name: 'cost/flat-part',
  severity: 'hint',
  summary: 'Everything is cut straight through from one side: a flat cutting process makes it in one laying-down.',
  why: 'A plate profile on a mill wants clamps, tabs and an hour. A laser, a water jet or a router cuts it from sheet in minutes; holes with a fit or a thread are finished on the drill press.',
  formula: `Every feature but broken edges goes through along one axis, there is an outline or an opening to mill, and the body along it (\`thickness_mm\`) is no thicker than \`limit_mm\`. Finished afterwards: threads, fits, sizes closer than a flat cut holds (${FLAT_CUTTING_SOURCE}), holes finer than the plate is thick (common practice, no source). \`milled_low_min\` to \`milled_high_min\` is the cutting of all features on the shop's machine, \`left_low_min\` to \`left_high_min\` of those that remain; \`plate_g\` is the piece's envelope with a web round it.`,
  limits: [
    {
      name: 'thickness',
      value: 12,
      unit: 'mm',
      what: 'Thickest plate that is commonly cut flat.',
      source: 'common practice, no source: lasers to 10–20 mm, water jets beyond',
    },
  ],
  bad: BAD,
  good: edited(BAD, [
    '5.5\n    depth: through\n',
    '5.5\n    depth: through\n    counterbore: { diameter: 10, depth: 1.5 }\n',
  ]),
  *find({ part, solid, limit }) {
    const blank = flatBlankOf(part, solid);
    if (!blank || blank.rest.some((f) => !isEdge(f)) || !blank.flat.some((f) => f.kind !== 'hole')) return;
    if (blank.thicknessMm <= limit('thickness')) yield blank;
  },
  tell(blank, context) {
    const { part, length } = context;
    const { axis, thicknessMm, flat, finish } = blank;
    const most = context.limit('thickness');
    const { words, facts } = comparison(blank, context);
    return {
      message: `${flat.length === 1 ? 'Its one feature goes' : `All ${flat.length} features go`} straight through ${length(thicknessMm)} along ${axis}: a laser, water jet or router cuts this from sheet in one laying-down (to about ${length(most)}, a rule of thumb)${finish.length > 0 ? `, and ${finish.map((f) => `\`${f.feature.name}\``).join(', ')} would be finished afterwards` : ''}. ${words.join(' ')}`,
      of: [],
      span: part.nameSpan,
      related: finish.map((f) => ({ span: f.feature.nameSpan, message: `finished afterwards: ${f.why}` })),
      facts: { features: flat.length, thickness_mm: thicknessMm, limit_mm: most, finish: finish.length, ...facts },
    };
  },
});

export function isEdge({ kind }: Feature): boolean {
  return kind === 'chamfer' || kind === 'round';
}
