/** tol/coating – a coat that the material does not take, that closes a thread, or that leaves a size no limits to cut to. */
import { materialOf } from '../../model/material-of';
import { addItem, setText } from '../../text/edit';
import { at, mapAt } from '../../text/tree';
import { ROUNDING } from '../../tolerance';
import { change, edited } from '../kit/changes';
import { coatedSizes, coatedThreads } from '../kit/coating';
import { defineRule } from '../kit/define';
import { memberPhrase } from '../kit/message';
import type { Rule } from '../kit/rule';

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
coating: { kind: hard-anodised, thickness: 0.05 }
body: { x: 60, y: 40, z: 12 }
features:
  mount: { kind: hole, face: top, at: { x: center, y: center }, thread: M5, depth: through }
`;

const ANODISED = /anodised$/;

export const coating: Rule = defineRule({
  name: 'tol/coating',
  severity: 'warning',
  summary: 'A coat closes a thread, leaves a size nothing to cut to, or does not take on the material.',
  why: 'A coat grows on every surface. On a thread it counts four times, so that screws bind. A size that is as close as the coat itself varies cannot be cut to come out right.',
  formula:
    'Growth of the coat: half its thickness where it is anodised, else all of it. A thread closes by 4 × growth; an opening by 2 × growth. The limits to cut to are those of the size, moved by the least and the most growth.',
  limits: [
    {
      name: 'thread',
      value: 0.025,
      unit: 'mm',
      what: 'Closing of a pitch diameter that a 6H thread bears.',
      source: 'common practice, no source: about the allowance that class G leaves a coat on M4 to M8',
    },
  ],
  bad: BAD,
  good: edited(BAD, ['thickness: 0.05', 'thickness: 0.05, masked: [mount]']),
  mends: 'Mask the thread.',
  *find({ part, limit }) {
    const coat = part.coating;
    if (!coat) return;
    const material = materialOf(part);
    if (material && ANODISED.test(coat.name) && !/^(?:aluminium|titanium)/.test(material.name))
      yield { what: 'material', span: coat.kindSpan, title: material.title, of: [] } as const;
    for (const { hole, closesMm } of coatedThreads(part))
      if (closesMm > limit('thread') + ROUNDING)
        yield {
          what: 'thread',
          span: hole.thread!.span,
          name: hole.thread!.designation,
          closesMm,
          of: [hole.name],
        } as const;
    for (const { size, lowerMm, upperMm } of coatedSizes(part))
      if (upperMm < lowerMm - ROUNDING)
        yield {
          what: 'size',
          span: size.tolerance.span,
          name: size.what,
          varies: lowerMm - upperMm,
          of: size.feature ? [size.feature.name] : [],
        } as const;
  },
  tell(hit, { length, limit, part }) {
    const of = [...hit.of];
    if (hit.what === 'material')
      return {
        message: `Only aluminium and titanium are anodised; ${hit.title} is not. Choose another coat.`,
        of,
        span: hit.span,
        facts: {},
      };
    if (hit.what === 'thread')
      return {
        message: `The coat closes thread ${hit.name} of ${memberPhrase(part, of[0]!)} by up to ${length(hit.closesMm)}, four times its growth. A screw may bind. Write it under \`masked\`, or tap it after coating.`,
        has: length(hit.closesMm),
        needs: length(limit('thread')),
        of,
        span: hit.span,
        facts: { closes_mm: hit.closesMm, limit_mm: limit('thread') },
      };
    return {
      message: `The coat varies by ${length(hit.varies)} more than the ${hit.name}${of.length > 0 ? ` of ${memberPhrase(part, of[0]!)}` : ''} may. Write it under \`masked\`, or widen the tolerance.`,
      of,
      span: hit.span,
      facts: { missing_mm: hit.varies },
    };
  },
  keep: ({ what, of }) => (what === 'thread' ? of[0] : undefined),
  *mend(name, { tree }) {
    const coat = mapAt(tree.root, 'coating');
    if (!coat || name === undefined) return;
    const masked = at(coat, 'masked');
    const edits = masked?.type === 'list' ? addItem(tree, masked, name) : setText(tree, coat, 'masked', `[${name}]`);
    yield change(`Mask ${name}`, edits);
  },
});
