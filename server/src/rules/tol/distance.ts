/** tol/distance – a toleranced distance that cannot be followed: along which axis, or another length than the part has. */

import { readMemberName } from '../../model/member-name';
import type { GeometricTolerance } from '../../model/model';
import { apartAlong, axisOfDistance } from '../../process/stackup/distance-axis';
import { at, samePlace } from '../../text/tree';
import { HAIR } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { addEntry, setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';

interface Lost {
  readonly tolerance: GeometricTolerance;
  /** Along which its ends are apart. */
  readonly apart: readonly Apart[];
  /** Along the one that it counts along, where that is known. */
  readonly along?: Apart;
}
type Apart = ReturnType<typeof apartAlong>[number];

function* lost({ part }: RuleContext): Generator<Lost> {
  for (const tolerance of part.tolerances) {
    const { characteristic, of, value } = tolerance;
    if (characteristic !== 'distance' || of.length !== 2 || of.some(({ name }) => hasSeveralPlaces(name, { part })))
      continue;
    const apart = apartAlong(tolerance, part);
    const axis = axisOfDistance(tolerance, part);
    const along = apart.find((a) => a.axis === axis);
    if (!axis && apart.length > 0) yield { tolerance, apart };
    else if (along && Math.abs(along.mm - value.mm) > HAIR) yield { tolerance, apart, along };
  }
}

/** From the middle of a pattern nobody measures. */
function hasSeveralPlaces(name: string, { part }: Pick<RuleContext, 'part'>): boolean {
  const { feature, member } = readMemberName(name);
  return member === undefined && (part.featureByName.get(feature)?.places.length ?? 0) > 1;
}

const BAD = `part: link
units: mm
material: aluminium-6061-t6
body: { x: 100, y: 50, z: 12 }
features:
  pin: { kind: hole, face: top, at: { x: 20, y: 15 }, diameter: 8 H7, depth: through }
  eye: { kind: hole, face: top, at: { x: 80, y: 35 }, diameter: 8 H7, depth: through }
tolerances:
  - { distance: 63 ±0.1, of: [pin, eye] }
`;

export const distance: Rule = defineRule({
  name: 'tol/distance',
  severity: 'warning',
  summary: 'A toleranced distance names no axis, or is another length than the part has.',
  why: 'A distance is checked along one axis of the machine. Without an axis it is not checked. With a length that the features do not have, no piece passes.',
  formula:
    'The distance counts along `axis`. Left out, that is the one axis along which the ends are apart, or are apart by what is written. Along it they must be apart by what is written.',
  bounds: 'The distance in the part and its geometry.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['63 ±0.1', '60 ±0.1'], ['[pin, eye]', '[pin, eye], axis: x']),
  when: 'text',
  mends: 'Name the axis, or write the length that the part has.',
  find: lost,
  tell({ tolerance: { value, of, span }, apart, along }, { part, length }) {
    const axes = apart.map((a) => a.axis);
    const ends = of.map((o) => o.name);
    const told = along
      ? `The distance from ${ends[0]} to ${ends[1]} is written as ${length(value.mm)}. Along ${along.axis} they are ${length(along.mm)} apart. Write ${length(along.mm)}, or move one of them.`
      : `The distance of ${length(value.mm)} from ${ends[0]} to ${ends[1]} names no axis. They are apart along ${list(axes)}, so it is not checked. Write ${list(
          axes.map((a) => `axis: ${a}`),
          'or',
        )}.`;
    return {
      message: told,
      of: ends,
      span: along ? value.span : span,
      related: of.map((o) => {
        const feature = part.featureByName.get(readMemberName(o.name).feature);
        return feature && { span: feature.nameSpan, message: 'one end' };
      }),
      facts: { distance_mm: value.mm, ...(along && { axis: along.axis, apart_mm: along.mm }) },
    };
  },
  keep: ({ tolerance: { span, value }, apart, along }) => ({ span, value, apart, along }),
  *mend({ span, value, apart, along }, { tree, part, length }) {
    if (along) {
      yield change(`Write ${length(along.mm)}`, setLength(value, along.mm, part));
      return;
    }
    const all = at(tree.root, 'tolerances');
    const map = all?.type === 'list' ? all.items.find((i) => samePlace(i.span, span)) : undefined;
    if (map?.type !== 'map') return;
    for (const { axis, mm } of apart) {
      const named = addEntry(tree, map, 'axis', axis);
      yield change(`Name axis ${axis}, ${length(mm)}`, together(setLength(value, mm, part), named));
    }
  },
});
