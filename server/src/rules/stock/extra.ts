import { FACE_AXIS, type Face, type Length } from '../../model/model';
import { stockSizeMm } from '../../model/stock';
import { at, entry, type Span } from '../../text/tree';
import { addEntry, setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { fact } from '../kit/message';
import type { Finding, Fix, Rule, RuleContext, SpanEdit } from '../kit/rule';

export const extra: Rule = {
  name: 'stock/extra',
  severity: 'warning',
  summary: 'A sawn face with too little or too much to clean up.',
  why: 'A saw leaves a face that is neither flat nor square: with too little outside the body some of it stays on the part; with too much, good stock is milled into chips pass after pass.',
  formula:
    'What stands outside the body on each face named under `sawn` (`extra_mm`); none where `extra` does not name it. A cut through a thick bar leans more: at least `least`, or `wander` for each 100 mm of the sawn face’s longer side, whichever is more. Round an outline left on tabs its frame may stay: the cutter’s width, `most` and `usual` together.',
  limits: [
    {
      name: 'least',
      value: 0.5,
      unit: 'mm',
      what: 'Least to clean up on a sawn face.',
      source: 'common practice, no source',
    },
    {
      name: 'wander',
      value: 0.5,
      unit: 'mm',
      what: 'How far a saw’s cut leans over 100 mm of the bar.',
      source: 'common practice, from memory: a band saw 0.2 to 0.5 mm',
    },
    {
      name: 'most',
      value: 6,
      unit: 'mm',
      what: 'Most to clean up on a sawn face; more is a hint.',
      source: 'common practice, no source',
    },
    {
      name: 'usual',
      value: 3,
      unit: 'mm',
      what: 'What the fix leaves on a sawn face.',
      source: 'common practice, no source',
    },
  ],
  bad: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
stock:
  form: flat-bar
  sawn: [left, right]
  extra: { left: 3, right: 0.2 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
stock:
  form: flat-bar
  sawn: [left, right]
  extra: { left: 3, right: 3 }
features:
  mount:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 5.5
    depth: through
`,
  when: 'text',
  *find(context): Iterable<Finding> {
    const { stock } = context.part;
    if (!stock.written) return;
    const [most, usual] = [context.limit('most'), context.limit('usual')];
    for (const { name: face, span } of stock.sawn) {
      const least = leastOn(face, context);
      const needed = framesFor(face, context);
      const given = stock.extra[face];
      const mm = given?.mm ?? 0;
      // A negative extra leaves no room for the body at all: stock/too-small.
      if ((mm >= least && mm <= Math.max(most, needed)) || mm < 0) continue;
      const little = mm < least;
      yield {
        rule: 'stock/extra',
        severity: little ? 'warning' : 'hint',
        message: little
          ? `The ${face} face is sawn and has ${mm > 0 ? `only ${context.length(mm)}` : 'nothing'} to clean up; under ${context.length(least)} the saw’s marks stay on the part (a rule of thumb). ${context.length(usual)} is usual.`
          : `The ${face} face is sawn and has ${context.length(mm)} to clean up; over ${context.length(most)} is stock milled into chips (a rule of thumb). ${context.length(usual)} is usual.`,
        of: [face],
        span: writtenAt(given, span),
        related: given && !given.from ? [{ span, message: 'sawn here' }] : [],
        facts: { extra_mm: fact(mm), limit_mm: fact(little ? least : most), usual_mm: usual },
      };
    }
  },
  mends: 'The usual allowance.',
  *mend(finding, context): Iterable<Fix> {
    const face = finding.of[0] as Face;
    const edit = setExtra(face, context.limit('usual'), context);
    if (edit)
      yield {
        title: `Leave ${context.length(context.limit('usual'))} on the ${face} face`,
        safe: false,
        edits: [edit],
      };
  },
};

/**
 * Stock outside an outline that is left on tabs is its frame: the cutter's width, what the tabs lead to, and what a saw
 * leaves. The widest mill where none is written. 0 where no tabs hold that face.
 */
function framesFor(face: Face, { part, shop, limit }: RuleContext): number {
  const beside = (part.setups ?? []).filter(
    (s) => s.hold?.type === 'tabs' && s.up && FACE_AXIS[s.up.name].axis !== FACE_AXIS[face].axis,
  );
  const mills = shop.tools.filter((t) => t.kind === 'end-mill');
  const widths = beside.flatMap((s) => {
    const asked = mills.filter((m) => s.tools.some(({ tool }) => tool.name === m.name));
    return (asked.length > 0 ? asked : mills).map((m) => m.diameterMm);
  });
  return widths.length > 0 ? Math.max(...widths) + limit('most') + limit('usual') : 0;
}

/** Through a large section the saw wanders farther than it does through a small one. */
function leastOn(face: Face, { part, limit }: RuleContext): number {
  const along = 'xyz'.indexOf(FACE_AXIS[face].axis);
  const sides = stockSizeMm(part).filter((_, i) => i !== along);
  return Math.max(limit('least'), (limit('wander') * Math.max(...sides)) / 100);
}

function writtenAt(given: Length | undefined, sawn: Span): Span {
  return given && !given.from ? given.span : sawn;
}

/** Writes the extras of several faces: as one new entry where none is written yet, else each where it fits. */
export function setExtras(
  faces: readonly { readonly face: Face; readonly mm: number }[],
  context: RuleContext,
): readonly SpanEdit[] | undefined {
  const { part, tree, write } = context;
  const stock = at(tree.root, 'stock');
  if (
    faces.length > 1 &&
    stock?.type === 'map' &&
    !entry(stock, 'extra') &&
    faces.every((f) => !part.stock.extra[f.face])
  ) {
    const one = addEntry(
      tree,
      stock,
      'extra',
      `{ ${faces.map(({ face, mm }) => `${face}: ${write(mm)}`).join(', ')} }`,
    );
    return one && [one];
  }
  return together(...faces.map(({ face, mm }) => setExtra(face, mm, context)));
}

/** Writes the extra of a face, wherever it fits: over its value, beside the others, or as a new entry of `stock`. */
export function setExtra(face: Face, mm: number, { part, tree, write }: RuleContext) {
  const given = part.stock.extra[face];
  if (given && !given.from) return setLength(given, mm, part);
  const stock = at(tree.root, 'stock');
  const extras = entry(stock, 'extra')?.value;
  if (extras?.type === 'map' && extras.entries.length > 0) return addEntry(tree, extras, face, write(mm));
  return stock?.type === 'map' ? addEntry(tree, stock, 'extra', `{ ${face}: ${write(mm)} }`) : undefined;
}
