/** cost/flat-blank – the outline and the openings cut flat from plate, the rest milled: what that saves on the mill. */
import { FLAT_CUTTING_SOURCE } from '../../tables/flat-cutting';
import { defineRule } from '../kit/define';
import { list } from '../kit/message';
import type { Rule } from '../kit/rule';
import { flatBlankOf } from './flat';
import { isEdge } from './flat-part';
import { comparison } from './flat-words';

const sample = (y: number, inner: number) => `part: side-plate
units: mm
material: steel-s235jr
body: { x: 160, y: ${y}, z: 10 }
features:
  outline:
    kind: contour
    face: top
    path:
      - { x: 0, y: 0, round: 8 }
      - { x: 160, y: 0, round: 8 }
      - { x: 120, y: ${y}, round: 8 }
      - { x: 40, y: ${y}, round: 8 }
    depth: through
  window: { kind: pocket, face: top, at: { x: center, y: center }, size: { x: 50, y: ${inner} }, corner-radius: 6, depth: through }
  seat: { kind: pocket, face: top, at: { x: 30, y: 12 }, diameter: 14, depth: 3 }
`;

export const flatBlank: Rule = defineRule({
  name: 'cost/flat-blank',
  severity: 'hint',
  summary: 'A piece cut flat from plate would save the mill most of its work.',
  why: 'Milling an outline cuts away plate, with a person beside the machine. A water jet or a laser cuts the same outline without one. The mill then makes only what has a floor, a thread or a fit.',
  formula: `The features that go straight through along one axis are cut flat, with the outline. What remains is threads, fits, and holes smaller than the plate is thick (rule of thumb). So do sizes closer than a flat cut holds. Source: ${FLAT_CUTTING_SOURCE}. Of an outline that is to be finished the finishing pass remains. The time saved is what is left out of the cutting. Reported where its low end reaches \`saves\` and is at least \`share\` of all cutting, up to \`thickness\`.`,
  limits: [
    {
      name: 'saves',
      value: 5,
      unit: 'min',
      what: 'Smallest saving of cutting on a piece that is reported.',
      source: 'common practice, no source: below it the way to the other machine costs more',
    },
    {
      name: 'share',
      value: 40,
      unit: 'percent',
      what: 'Smallest share of the cutting.',
      source: 'common practice, no source',
    },
    {
      name: 'thickness',
      value: 12,
      unit: 'mm',
      what: 'Thickest plate that is commonly cut flat.',
      source: 'common practice, no source: lasers to 10–20 mm, water jets beyond',
    },
  ],
  bad: sample(100, 40),
  good: sample(40, 20).replace('    depth: through\n  window', '    depth: 4\n  window'),
  *find(context) {
    const { part, solid } = context;
    const blank = flatBlankOf(part, solid);
    // With nothing but broken edges left over it is a flat part: told as such.
    if (!blank?.rest.some((f) => !isEdge(f)) || !blank.flat.some((f) => f.kind !== 'hole')) return;
    if (blank.thicknessMm > context.limit('thickness')) return;
    const { compared, words, facts } = comparison(blank, context);
    if (!compared || compared.saved[0] < context.limit('saves')) return;
    if (compared.saved[0] < (context.limit('share') / 100) * compared.milled[0]) return;
    yield { blank, words, facts };
  },
  tell({ blank: { flat, thicknessMm }, words, facts }, { part, length }) {
    const names = flat.map((f) => f.name);
    return {
      message: `Feature${names.length === 1 ? '' : 's'} ${list(names)} ${names.length === 1 ? 'goes' : 'go'} straight through ${length(thicknessMm)}. Have ${names.length === 1 ? 'it' : 'them'} cut from plate by water jet or laser. ${words.join(' ')}`,
      of: [],
      span: part.nameSpan,
      related: flat.map((f) => ({ span: f.nameSpan, message: 'cut flat' })),
      facts: { flat: flat.length, thickness_mm: thicknessMm, ...facts },
    };
  },
});
