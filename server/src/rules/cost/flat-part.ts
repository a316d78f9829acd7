import type { Feature } from '../../model/model';
import { FLAT_CUTTING_SOURCE } from '../../tables/flat-cutting';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { list } from '../kit/message';
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
  summary: 'Everything is cut straight through from one side: a flat cutting process can make this part.',
  why: 'A plate outline on a mill needs clamps, tabs and an hour. A laser, a water jet or a router cuts it from sheet in minutes. Holes with a fit or a thread are finished on the drill press.',
  formula: `Every feature but broken edges goes through along one axis. There is an outline or an opening to mill, and the part is at most \`thickness\` thick. Finished afterwards are threads, fits, and holes smaller than the plate is thick (rule of thumb). So are sizes closer than a flat cut holds. Source: ${FLAT_CUTTING_SOURCE}. The time of milling is that of all features on the shop’s machine, and of those that remain. The plate needed is the body with what is left between pieces.`,
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
    const { thicknessMm, flat, finish } = blank;
    const most = context.limit('thickness');
    const { words, facts } = comparison(blank, context);
    return {
      message: `${flat.length === 1 ? 'The only feature goes' : `All ${flat.length} features go`} straight through ${length(thicknessMm)}. Have it cut from sheet by laser, water jet or router${finish.length > 0 ? `, and finish ${list(finish.map((f) => f.feature.name))} afterwards` : ''}. ${words.join(' ')}`,
      of: [],
      span: part.nameSpan,
      related: finish.map((f) => ({ span: f.feature.nameSpan, message: `finished afterwards: ${f.why}` })),
      facts: { features: flat.length, thickness_mm: thicknessMm, limit_mm: most, finish: finish.length, ...facts },
    };
  },
});

export function isEdge({ kind }: Feature): boolean {
  return kind === 'chamfer' || kind === 'edge-round';
}
