import { AXIS_INDEX } from '../../geometry/vector';
import { type ByForm, ofForm } from '../../model/feature-kinds';
import type { Engraving, Face, Feature, Part, Step } from '../../model/model';
import { FACE_AXIS, FACES } from '../../model/model';
import { nodeAt } from '../kit/edits';
import { fact, list, memberName, spanOf } from '../kit/message';
import type { Finding, Rule, RuleContext } from '../kit/rule';
import { takesSomething } from '../kit/samples';

/** Less than this is the dust of floating point, mm³. */
const NOTHING = 1e-6;

export const outsideBody: Rule = {
  name: 'form/outside-body',
  severity: 'error',
  summary: 'A feature that cuts only air, or that is written deeper or wider than the body.',
  why: 'A feature beside the body is a wrong sign, a wrong face or a dimension taken from the wrong edge. One that is written deeper than the body means `through`, and the shop should read that.',
  formula:
    'Volume of the feature inside the body (`inside_mm3`); the stated depth against the body along it; the width of a step against the body across it; how far letters run past the body (`past_mm`).',
  limits: [],
  bad: `part: cover
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
`,
  good: `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 8 }
features:
  mount:
    kind: hole
    face: top
    at: { right: 8, y: center }
    diameter: 5.5
    depth: through
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: through
`,
  *find(context): Iterable<Finding> {
    for (const feature of context.part.features) {
      const air = membersInAir(feature, context);
      if (air.length > 0) yield inAir(feature, air, context);
      else {
        yield* tooDeep(feature, context);
        yield* ofForm(BEYOND, feature, context);
      }
    }
  },
  mends: 'A depth beyond the far side becomes `through`.',
  *mend(finding, { part, tree }) {
    if (finding.facts.excess_mm === undefined) return;
    const feature = part.featureByName.get(finding.of[0] ?? '');
    const depth = feature && nodeAt(tree, feature.name, 'depth');
    if (depth) yield { title: 'Write `depth: through`', safe: true, edits: [{ span: depth.span, newText: 'through' }] };
  },
};

/** Members (0: the lone feature) that remove nothing of the body. */
function membersInAir(feature: Feature, { solid }: RuleContext): readonly number[] {
  const inside = new Map<number, boolean>();
  for (const v of solid.voidsOf(feature.name)) {
    inside.set(v.member, inside.get(v.member) || takesSomething(v, solid, NOTHING));
  }
  return [...inside].filter(([, takes]) => !takes).map(([member]) => member);
}

function inAir(feature: Feature, air: readonly number[], { part, length }: RuleContext): Finding {
  const names = air.map((m) => memberName(feature.name, m));
  const [x, y, z] = part.size;
  return {
    rule: 'form/outside-body',
    severity: 'error',
    message: `${list(names.map((n) => `\`${n}\``))} lies outside the body, which is ${length(x)} × ${length(y)} × ${length(z)}: it cuts only air. Check its place, its face, and from which side it is measured.`,
    of: names,
    span: spanOf(feature, 'at', 'name'),
    related: part.body ? [{ span: part.body.span, message: 'the body' }] : [],
    facts: { inside_mm3: 0, members: air.length, x_mm: fact(x), y_mm: fact(y), z_mm: fact(z) },
  };
}

function* tooDeep(feature: Feature, { part, length }: RuleContext): Iterable<Finding> {
  if (!('depth' in feature) || !feature.depth || feature.depth.through || feature.tilt) return;
  const thick = thicknessMm(part, feature);
  const excess = feature.startMm + feature.depth.mm - thick;
  if (feature.depth.length?.from || excess < 1e-6) return;
  const start = feature.startMm > 0 ? `, starting ${length(feature.startMm)} below the face,` : '';
  yield {
    rule: 'form/outside-body',
    severity: 'warning',
    message: `\`${feature.name}\` is ${length(feature.depth.mm)} deep${start} in a body of ${length(thick)}: ${length(excess)} of that is air. Write \`through\` if that is meant.`,
    of: [feature.name],
    span: feature.depth.span,
    related: part.body ? [{ span: part.body.span, message: 'the body' }] : [],
    facts: {
      depth_mm: fact(feature.depth.mm),
      start_mm: fact(feature.startMm),
      body_mm: fact(thick),
      excess_mm: fact(excess),
    },
  };
}

/** A shoulder as wide as the body is none: the whole face goes, and the body is lower than it says. */
function* tooWide(step: Step, { part, length }: RuleContext): Iterable<Finding> {
  const [along, other] = step.along;
  const [width] = step.widths;
  // A flat along the whole of a round bar is a step as long as the bar; one along two sides stands on the other.
  if (part.body?.form !== 'box' || !along || other || !width) return;
  const { axis } = FACE_AXIS[along.name];
  const across = part.size['xyz'.indexOf(axis)]!;
  if (width.mm < across - 1e-6) return;
  yield {
    rule: 'form/outside-body',
    severity: 'warning',
    message: `\`${step.name}\` reaches ${length(width.mm)} in from the ${along.name} face of a body that is ${length(across)} along ${axis}: no shoulder stays, the whole ${step.face} face goes. Check the side it runs along, or make the body that much smaller.`,
    of: [step.name],
    span: width.span,
    related: [{ span: part.body.span, message: 'the body' }],
    facts: { width_mm: fact(width.mm), body_mm: fact(across) },
  };
}

function thicknessMm(part: Part, feature: Feature): number {
  return part.size['xyz'.indexOf(FACE_AXIS[feature.face].axis)]!;
}

/** Letters that hang over are cut off, or missing. */
function* pastTheEnd(text: Engraving, { solid, length }: RuleContext): Iterable<Finding> {
  const { min, max } = solid.body.box;
  const own = FACE_AXIS[text.face].axis;
  let past: { readonly face: Face; readonly mm: number } | undefined;
  for (const { bounds } of solid.voidsOf(text.name)) {
    for (const face of FACES) {
      const { axis, sign } = FACE_AXIS[face];
      if (axis === own) continue;
      const i = AXIS_INDEX[axis];
      const mm = sign > 0 ? bounds.max[i] - max[i] : min[i] - bounds.min[i];
      if (mm > LEAST_PAST_MM && (!past || mm > past.mm + 1e-6)) past = { face, mm };
    }
  }
  if (!past) return;
  yield {
    rule: 'form/outside-body',
    severity: 'warning',
    message: `The text of \`${text.name}\` runs ${length(past.mm)} past the ${past.face} of the body: letters are cut off there. Lower letters, a shorter text or another place would do.`,
    of: [text.name],
    span: spanOf(text, 'text'),
    related: [],
    facts: { past_mm: fact(past.mm), face: past.face },
  };
}

/** What nobody sees of a letter. */
const LEAST_PAST_MM = 0.05;

const within = () => [];
/** What else of it may lie beyond the body. */
const BEYOND: ByForm<[RuleContext], Iterable<Finding>> = {
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
