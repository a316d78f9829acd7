import { pointAt } from '../../geometry/2d/edge';
import { windingOf } from '../../geometry/2d/inside';
import { regionEdges } from '../../geometry/2d/moments';
import { nearIn } from '../../geometry/solid/near';
import type { Frame, Point2, Vec3, Void } from '../../geometry/types';
import { boxesMeet } from '../../geometry/vector';
import type { Feature } from '../../model/model';
import { change, edited, tidying } from '../kit/changes';
import { defineRule, type Told } from '../kit/define';
import { addEntry, featureNode, nodeAt, setLength } from '../kit/edits';
import { together } from '../kit/fields';
import { capital, fact, memberOf } from '../kit/message';
import type { Fix, Rule, RuleContext, Severity } from '../kit/rule';
import { alongside, depthRange } from '../kit/voids';

/** Less than this is a touch, mm³. */
const TOUCH = 0.01;

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 5
    depth: 12
  cable:
    kind: pocket
    face: bottom
    at: { x: 20, y: center }
    size: { x: 16, y: 12 }
    corner-radius: 5
    depth: 10
`;

export const overlap: Rule = defineRule({
  name: 'form/overlap',
  severity: 'warning',
  summary: 'Two features cut the same material, and neither starts on the other.',
  why: 'Where two cuts share volume, one of them is partly cut in air. Its depth counts from a face that is no longer there; its time is calculated for material that is gone. Two recesses from different sides that meet open a window that may not be meant.',
  formula:
    'The volume that both cut inside the body. A recess that continues from the floor of another in the same direction is a hint: write `from`. Two blind recesses from different faces are a warning. Not reported for broken edges, steps, slopes, contours, engraving and through cuts. A hole that breaks into a cavity is hole/crosses.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['depth: 10', 'depth: 6']),
  *find(context) {
    const worst = new Map<string, { readonly found?: Shared; readonly looked: number }>();
    const { voids } = context.solid;
    for (let j = 1; j < voids.length; j++) {
      const b = voids[j]!;
      for (const i of nearIn(voids, b.bounds)) {
        const a = voids[i]!;
        if (i >= j) break;
        if (!boxesMeet(a.bounds, b.bounds, 0) || (a.feature === b.feature && a.member === b.member)) continue;
        const pair = `${a.feature} ${b.feature}`;
        const { found, looked } = worst.get(pair) ?? { looked: 0 };
        if (looked >= MOST_PAIRS) continue;
        const now = sharedBy(a, b, context);
        if (now) worst.set(pair, { found: worse(found, now), looked: looked + 1 });
      }
    }
    for (const { found } of worst.values()) if (found) yield found;
  },
  tell: (hit, context) => ('inner' in hit ? tellInner(hit, context) : tellBoth(hit, context)),
  mends: 'Start the inner feature `from` the outer one, or make one recess shallower to leave a floor.',
  keep: (hit): Kept =>
    'inner' in hit ? { stack: [hit.inner.name, hit.outer.name] } : { apart: namesOf(hit), meetMm: hit.meetMm },
  *mend({ stack = [], apart = [], meetMm = 0 }, context): Generator<Fix | undefined> {
    const { part, length } = context;
    const [inner, outer] = stack.map((name) => part.featureByName.get(name));
    if (inner && outer) yield* startFrom(inner, outer, context);
    for (const name of meetMm > 0 ? apart : []) {
      const feature = part.featureByName.get(name);
      if (!feature || !('depth' in feature) || !feature.depth || feature.depth.through) continue;
      const mm = feature.depth.mm - fact(meetMm) - FLOOR_MM;
      const title = `Make ${name} ${length(mm)} deep: leaves a floor of ${length(FLOOR_MM)} between the two`;
      if (mm > 0) yield change(title, setLength(feature.depth.length, mm, part));
    }
  },
});

/** A floor that stands by itself; `wall/floor` says where it does not. */
const FLOOR_MM = 2;

function* startFrom(inner: Feature, outer: Feature, { part, tree, length }: RuleContext): Generator<Fix | undefined> {
  const node = featureNode(tree, inner.name);
  if (!node || !('depth' in inner) || !inner.depth || !('depth' in outer) || !outer.depth) return;
  const from = addEntry(tree, node, 'from', outer.name);
  if (inner.depth.through) {
    yield tidying(`Add \`from: ${outer.name}\``, from);
    return;
  }
  const mm = inner.depth.mm - (outer.startMm + outer.depth.mm - inner.startMm);
  const depth = nodeAt(tree, inner.name, 'depth') && setLength(inner.depth.length, mm, part);
  const title = `Add \`from: ${outer.name}\`, with the ${length(mm)} below its floor as depth`;
  if (mm > 0) yield tidying(title, together(from, depth));
}

/** Members of two patterns that are compared: beyond that, what was found so far is told. */
const MOST_PAIRS = 40;

/** One that goes on from the floor of another. */
interface Inner {
  readonly inner: Feature;
  readonly outer: Feature;
  readonly floorMm: number;
  readonly sharedMm3: number;
  readonly severity: 'hint';
}
/** Two of which none does. */
interface Both {
  readonly a: Void;
  readonly b: Void;
  readonly sharedMm3: number;
  /** So deep they open into each other, from opposite sides. */
  readonly meetMm: number;
  readonly severity: Severity;
}
type Shared = Inner | Both;

interface Kept {
  /** The inner one, and that on whose floor it goes on. */
  readonly stack?: readonly [string, string];
  readonly apart?: readonly [string, string];
  readonly meetMm?: number;
}

/** Of what two features share the one that matters more, whichever members come first in the text. */
function worse(a: Shared | undefined, b: Shared): Shared {
  if (!a) return b;
  if (a.severity !== b.severity) return a.severity === 'warning' ? a : b;
  return tenths(b.sharedMm3) > tenths(a.sharedMm3) ? b : a;
}

const tenths = (mm3: number) => Math.round(mm3 * 10) / 10;

/** What is expected to run over other features, or is another rule's to judge. */
const EXPECTED = new Set<Void['role']>(['edge', 'step', 'slope', 'contour', 'engraving', 'groove', 'undercut']);

function sharedBy(a: Void, b: Void, context: RuleContext): Shared | undefined {
  const { part, solid } = context;
  if (EXPECTED.has(a.role) || EXPECTED.has(b.role)) return undefined;
  const [fa, fb] = [part.featureByName.get(a.feature), part.featureByName.get(b.feature)];
  if (!fa || !fb || stacked(fa, fb, context)) return undefined;
  const holes = (fa.kind === 'hole' ? 1 : 0) + (fb.kind === 'hole' ? 1 : 0);
  const direction = alongside(a.frame, b.frame);
  const inner = direction > 0 ? containedIn(a, b) : undefined;
  // A hole that runs into a cavity sideways, or breaks into another hole, is hole/crosses.
  if (holes > 0 && !(inner && fa !== fb)) return undefined;
  // Coming through from any side is how openings are made.
  if (direction <= 0 && (a.through || b.through)) return undefined;
  const sharedMm3 = solid.sharedMm3(a, b);
  if (sharedMm3 < TOUCH) return undefined;
  if (inner) return inner === a ? goesOn(fa, fb, sharedMm3) : goesOn(fb, fa, sharedMm3);
  const meetMm = direction < 0 ? overlapAlong(a, b) : 0;
  return { a, b, sharedMm3, meetMm, severity: direction > 0 ? 'hint' : 'warning' };
}

function goesOn(inner: Feature, outer: Feature, sharedMm3: number): Inner | undefined {
  const depth = 'depth' in outer && outer.depth ? outer.depth : undefined;
  const own = 'depth' in inner && inner.depth ? inner.depth : undefined;
  // Wholly inside is removes-nothing; through an opening that is through anyway, nothing is gained by saying so.
  if (!depth || !own || depth.through || inner.startMm + own.mm <= outer.startMm + depth.mm) return undefined;
  return { inner, outer, sharedMm3, floorMm: outer.startMm + depth.mm, severity: 'hint' };
}

function tellInner({ inner, outer, sharedMm3, floorMm, severity }: Inner, { length }: RuleContext): Told {
  return {
    severity,
    message: `${capital(inner.kind)} ${inner.name} starts where ${outer.name} has already cut ${length(floorMm)} deep. Write \`from: ${outer.name}\`; depth then counts from the floor of ${outer.name}.`,
    of: [inner.name, outer.name],
    span: inner.nameSpan,
    related: [{ span: outer.nameSpan, message: `${outer.name} cuts ${length(floorMm)} of it first` }],
    facts: { shared_mm3: sharedMm3, floor_mm: floorMm, inner: inner.name, outer: outer.name },
  };
}

/** The later one first. */
function namesOf({ a, b }: Both): readonly [string, string] {
  return a.feature === b.feature ? [memberOf(b), memberOf(a)] : [b.feature, a.feature];
}

function tellBoth(hit: Both, { part, length }: RuleContext): Told {
  const { a, b, sharedMm3, meetMm, severity } = hit;
  const [later, earlier] = [part.featureByName.get(b.feature)!, part.featureByName.get(a.feature)!];
  const say =
    severity === 'hint'
      ? 'Make one feature of them, or start one `from` the other.'
      : `They open into each other${meetMm > 0 ? ` by ${length(meetMm)} of depth` : ''}. Make one shallower or move it, or write \`depth: through\` for an opening.`;
  const names = namesOf(hit);
  return {
    severity,
    message: `Features ${names[0]} and ${names[1]} both cut the same ${tenths(sharedMm3)} mm³. ${say}`,
    of: names,
    span: later.nameSpan,
    related: later === earlier ? [] : [{ span: earlier.nameSpan, message: `\`${names[1]}\`` }],
    facts: { shared_mm3: tenths(sharedMm3), meet_mm: meetMm > 0 ? meetMm : undefined },
  };
}

/** One starts on the other, over any number of floors. */
function stacked(a: Feature, b: Feature, { part }: RuleContext): boolean {
  const reaches = (low: Feature, high: Feature) => {
    let at: Feature | undefined = low;
    for (let i = 0; at?.from && i < part.features.length; i++) {
      if (at.from.name === high.name) return true;
      at = part.featureByName.get(at.from.name);
    }
    return false;
  };
  return a !== b && (reaches(a, b) || reaches(b, a));
}

/** The one whose outline lies wholly inside the other's, of two cut in the same direction. */
function containedIn(a: Void, b: Void): Void | undefined {
  if (within(a, b)) return a;
  return within(b, a) ? b : undefined;
}
function within(a: Void, b: Void): boolean {
  const edges = regionEdges(b.region);
  return regionEdges(a.region).every((e) =>
    [0, 0.25, 0.5, 0.75].every((t) => {
      const p = seenFrom(b.frame, a.frame, pointAt(e, t));
      return windingOf(edges, p.u, p.v) !== 0;
    }),
  );
}
function seenFrom(to: Frame, from: Frame, p: Point2): Point2 {
  const d = [0, 1, 2].map(
    (i) => from.origin[i]! + from.u[i]! * p.u + from.v[i]! * p.v - to.origin[i]!,
  ) as unknown as Vec3;
  const dot = (w: Vec3) => d[0] * w[0] + d[1] * w[1] + d[2] * w[2];
  return { u: dot(to.u), v: dot(to.v) };
}

function overlapAlong(a: Void, b: Void): number {
  const [a0, a1] = depthRange(a, a.frame);
  const [b0, b1] = depthRange(b, a.frame);
  return Math.min(a1, b1) - Math.max(a0, b0);
}
