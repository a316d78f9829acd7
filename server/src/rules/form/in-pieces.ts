import { solidOf } from '../../geometry/part-solid';
import type { Feature, Part } from '../../model/model';
import { edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { count, list, spanOf } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: link
units: mm
material: aluminium-6061-t6
body: { x: 80, y: 30, z: 8 }
features:
  split:
    kind: slot
    face: top
    ends: [{ x: 40, y: -10 }, { x: 40, y: 40 }]
    width: 8
    depth: through
`;

export const inPieces: Rule = defineRule({
  name: 'form/in-pieces',
  severity: 'error',
  summary: 'The part falls apart, or nothing of it is left.',
  why: 'What is cut free is no longer held. The cutter catches it and throws it. And it is not the part that was meant.',
  formula:
    'Connected lumps of material in the finished part, after every feature is cut. Material that meets only along an edge or in a point is not connected.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['y: 40', 'y: 18']),
  find({ part, solid: { pieces } }) {
    return pieces === 1 ? [] : [{ pieces, causes: causesOf(part, pieces) }];
  },
  tell({ pieces, causes }, { part }) {
    const first = causes[0];
    const names = causes.map((f) => f.name);
    return {
      message:
        pieces === 0
          ? `Nothing is left of the part${names.length ? `: it would be without ${list(names, 'or')}` : ''}. Make the cut smaller or shallower.`
          : `The part falls into ${count(pieces, 'piece')}${names.length ? `: ${list(names, 'or')} cuts through the last connection` : ''}. Leave a bridge of material, or write the pieces as parts of their own.`,
      of: causes.map((f) => f.name),
      span: first ? spanOf(first, 'name') : (part.body?.span ?? part.nameSpan),
      related: causes.slice(1).map((f) => ({ span: f.nameSpan, message: `${f.name} cuts it too` })),
      facts: { pieces },
    };
  },
});

/** More features than this are not tried one by one: the finding then stands at the body. */
const MOST_TRIED = 80;

/** Features without which there would be fewer pieces (or, where nothing is left, something). */
function causesOf(part: Part, pieces: number): readonly Feature[] {
  if (part.features.length > MOST_TRIED) return [];
  return part.features.filter((feature) => {
    const without = solidOf({ ...part, features: part.features.filter((f) => f !== feature) }).pieces;
    return pieces === 0 ? without > 0 : without > 0 && without < pieces;
  });
}
