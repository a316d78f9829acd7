import { AXIS_INDEX } from '../../geometry/vector';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import { memberName } from '../../model/member-name';
import type { Engraving, Face, Feature, Part, Step } from '../../model/model';
import { FACE_AXIS, FACES } from '../../model/model';
import { SAME } from '../../tolerance';
import { edited, tidying } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { nodeAt } from '../kit/edits';
import { capital, list, spanOf } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { takesSomething } from '../kit/samples';

/** Less than this is the dust of floating point, mm³. */
const NOTHING = 1e-6;

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  mount:
    kind: hole
    face: top
    at: { x: 75, y: center }
    diameter: 5.5
    depth: through
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 10
`;

export const outsideBody: Rule = defineRule({
  name: 'form/outside-body',
  severity: 'error',
  summary: 'A feature cuts only air, or is deeper or wider than the body.',
  why: 'A feature beside the body is a wrong sign, a wrong face or a dimension from the wrong edge. One that is deeper than the body means `through`, and the text should say so.',
  formula:
    'The volume of the feature inside the body. Depths, and the width of a step, are compared with the body. Letters must not run past it.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['x: 75', 'right: 8'], ['depth: 10', 'depth: through']),
  *find(context): Generator<Beyond> {
    for (const feature of context.part.features) {
      const air = membersInAir(feature, context);
      if (air.length > 0) yield { report: inAir(feature, air, context) };
      else {
        yield* tooDeep(feature, context);
        for (const told of ofForm(BEYOND, feature, context)) yield { report: told };
      }
    }
  },
  tell: ({ report: told }) => told,
  mends: 'Write `through` for a depth beyond the far side.',
  keep: ({ tooDeep: name }) => name,
  *mend(name, { tree }) {
    const depth = nodeAt(tree, name, 'depth');
    yield tidying('Write `depth: through`', depth && { span: depth.span, newText: 'through' });
  },
});

interface Beyond {
  readonly report: Told;
  /** Its name, where all that is beyond is its depth. */
  readonly tooDeep?: string;
}

/** Members (0: the lone feature) that remove nothing of the body. */
function membersInAir(feature: Feature, { solid }: RuleContext): readonly number[] {
  const inside = new Map<number, boolean>();
  for (const v of solid.voidsOf(feature.name)) {
    inside.set(v.member, inside.get(v.member) || takesSomething(v, solid, NOTHING));
  }
  return [...inside].filter(([, takes]) => !takes).map(([member]) => member);
}

function inAir(feature: Feature, air: readonly number[], { part, length }: RuleContext): Told {
  const names = air.map((m) => memberName(feature.name, m));
  const [x, y, z] = part.size;
  return {
    message: `Feature${names.length > 1 ? 's' : ''} ${list(names)} ${names.length > 1 ? 'are' : 'is'} outside the body of ${length(x)} × ${length(y)} × ${length(z)} and ${names.length > 1 ? 'cut' : 'cuts'} only air. Check the place, the face, and the edge it is measured from.`,
    of: names,
    span: spanOf(feature, 'at', 'name'),
    related: part.body ? [{ span: part.body.span, message: 'the body' }] : [],
    facts: { inside_mm3: 0, members: air.length, x_mm: x, y_mm: y, z_mm: z },
  };
}

function* tooDeep(feature: Feature, { part, length }: RuleContext): Generator<Beyond> {
  if (!('depth' in feature) || !feature.depth || feature.depth.through || feature.tilt) return;
  const thick = thicknessMm(part, feature);
  const excess = feature.startMm + feature.depth.mm - thick;
  if (feature.depth.length?.from || excess < SAME) return;
  const start = feature.startMm > 0 ? `, starting ${length(feature.startMm)} below the face,` : '';
  const told: Told = {
    severity: 'warning',
    message: `${capital(feature.kind)} ${feature.name} is ${length(feature.depth.mm)} deep${start} in a body of ${length(thick)}: ${length(excess)} of that is air. Write \`through\` if it goes through.`,
    has: length(feature.depth.mm),
    needs: `${length(thick)} or less`,
    of: [feature.name],
    span: feature.depth.span,
    related: part.body ? [{ span: part.body.span, message: 'the body' }] : [],
    facts: {
      depth_mm: feature.depth.mm,
      start_mm: feature.startMm,
      body_mm: thick,
      excess_mm: excess,
    },
  };
  yield { report: told, tooDeep: feature.name };
}

/** A shoulder as wide as the body is none: the whole face goes, and the body is lower than it says. */
function* tooWide(step: Step, { part, length }: RuleContext): Generator<Told> {
  const [along, other] = step.along;
  const [width] = step.widths;
  // A flat along the whole of a round bar is a step as long as the bar; one along two sides stands on the other.
  if (part.body?.form !== 'box' || !along || other || !width) return;
  const { axis } = FACE_AXIS[along.name];
  const across = part.size['xyz'.indexOf(axis)]!;
  if (width.mm < across - SAME) return;
  yield {
    severity: 'warning',
    message: `Step ${step.name} is ${length(width.mm)} wide from the ${along.name} face. The body is ${length(across)} along ${axis}: no shoulder is left, the whole ${step.face} face is cut away. Check the side it runs along, or make the body smaller.`,
    of: [step.name],
    span: width.span,
    related: [{ span: part.body.span, message: 'the body' }],
    facts: { width_mm: width.mm, body_mm: across },
  };
}

function thicknessMm(part: Part, feature: Feature): number {
  return part.size['xyz'.indexOf(FACE_AXIS[feature.face].axis)]!;
}

/** Letters that hang over are cut off, or missing. */
function* pastTheEnd(text: Engraving, { solid, length }: RuleContext): Generator<Told> {
  const { min, max } = solid.body.box;
  const own = FACE_AXIS[text.face].axis;
  let past: { readonly face: Face; readonly mm: number } | undefined;
  for (const { bounds } of solid.voidsOf(text.name)) {
    for (const face of FACES) {
      const { axis, sign } = FACE_AXIS[face];
      if (axis === own) continue;
      const i = AXIS_INDEX[axis];
      const mm = sign > 0 ? bounds.max[i] - max[i] : min[i] - bounds.min[i];
      if (mm > LEAST_PAST_MM && (!past || mm > past.mm + SAME)) past = { face, mm };
    }
  }
  if (!past) return;
  yield {
    severity: 'warning',
    message: `The text of ${text.name} runs ${length(past.mm)} past the ${past.face} of the body: letters are cut off. Make the letters lower or the text shorter, or move it.`,
    of: [text.name],
    span: spanOf(text, 'text'),
    facts: { past_mm: past.mm, face: past.face },
  };
}

/** What nobody sees of a letter. */
const LEAST_PAST_MM = 0.05;

const within = (): readonly Told[] => [];
/** What else of it may lie beyond the body. */
const BEYOND: ByForm<[RuleContext], Iterable<Told>> = {
  hole: within,
  opening: within,
  channel: within,
  shoulder: tooWide,
  outside: within,
  edge: within,
  ring: within,
  letters: pastTheEnd,
  slope: within,
};
