import type { Void } from '../../geometry/types';
import { breaksEdges } from '../../model/feature-kinds';
import { memberName } from '../../model/member-name';
import type { Feature } from '../../model/model';
import { at, entry } from '../../text/tree';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { removeEntry } from '../kit/edits';
import { list } from '../kit/message';
import type { Rule, RuleContext } from '../kit/rule';
import { takesAlone, takesSomething, takeTheSame } from '../kit/samples';

/** Less than this is the dust of floating point, mm³. */
const NOTHING = 1e-4;

const BAD = `part: cover
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 12 }
features:
  window:
    kind: pocket
    face: top
    at: { x: center, y: center }
    size: { x: 30, y: 16 }
    corner-radius: 4
    depth: 6
  sensor:
    kind: hole
    face: top
    at: { x: center, y: center }
    diameter: 8
    bottom: flat
    depth: 5
`;

export const removesNothing: Rule = defineRule({
  name: 'form/removes-nothing',
  severity: 'warning',
  summary: 'A feature is wholly inside what other features cut.',
  why: 'It costs a tool and a line on the set-up sheet and changes nothing. Usually it should be deeper, elsewhere, or start on the floor of the other feature.',
  formula: 'The volume that only this feature cuts out of the body, with all others cut.',
  limits: [],
  bad: BAD,
  good: edited(
    BAD,
    ['sensor:\n    kind: hole\n    face: top\n', 'sensor:\n    kind: hole\n    from: window\n'],
    ['depth: 5', 'depth: 2'],
  ),
  find(context) {
    const idle = new Set<Void>();
    const found: Idle[] = [];
    // The later of two that remove the same is the one too many.
    for (const feature of [...context.part.features].reverse()) {
      const groups = groupsOf(feature, context).filter((voids) => isIdle(voids, idle, context));
      for (const v of groups.flat()) idle.add(v);
      if (groups.length > 0) found.push({ feature, groups, whole: isWhole(feature, groups, context) });
    }
    return found.reverse();
  },
  tell({ feature, groups, whole }, context) {
    const names = groups.map((voids) => memberName(feature.name, voids[0]!.member));
    const taken = takenBy(feature, groups.flat(), context);
    return {
      message: `Feature${names.length > 1 ? 's' : ''} ${list(names)} ${names.length > 1 ? 'cut' : 'cuts'} nothing: ${taken.length ? list(taken) : 'another feature'} ${taken.length > 1 ? 'have' : 'has'} already cut all of it. Make it deeper, move it, or start it on a floor with \`from\`.`,
      of: names,
      span: feature.nameSpan,
      related: taken.map((name) => {
        const other = context.part.featureByName.get(name);
        return other && { span: other.nameSpan, message: `${name} cuts it` };
      }),
      facts: { alone_mm3: 0, members: names.length, whole: whole ? 'yes' : 'no' },
    };
  },
  mends: 'Delete the feature; the shape of the part stays as it is.',
  keep: ({ feature, whole }) => (whole ? feature.name : undefined),
  *mend(name, { tree }) {
    const map = at(tree.root, 'features');
    const gone = entry(map, name);
    if (map?.type !== 'map' || !gone) return;
    const edits = removeEntry(tree, map, gone, entry(tree.root, 'features'));
    yield change(`Delete ${name}: the shape of the part stays as it is`, edits);
  },
});

interface Idle {
  readonly feature: Feature;
  /** The volumes of each member that removes nothing. */
  readonly groups: readonly (readonly Void[])[];
  /** All its members do. */
  readonly whole: boolean;
}

/** The volumes of each member; a broken edge is judged as a whole: some of its edges may be gone. */
function groupsOf(feature: Feature, { solid }: RuleContext): readonly (readonly Void[])[] {
  const voids = solid.voidsOf(feature.name);
  if (breaksEdges(feature)) return voids.length ? [voids] : [];
  const members = new Map<number, Void[]>();
  for (const v of voids) members.set(v.member, [...(members.get(v.member) ?? []), v]);
  return [...members.values()];
}

/** Removes nothing alone, and not because its double, already told of, removes the same. Air is another rule's. */
function isIdle(voids: readonly Void[], idle: ReadonlySet<Void>, { solid }: RuleContext): boolean {
  if (voids.some((v) => takesAlone(v, solid, NOTHING))) return false;
  if (!voids.some((v) => takesSomething(v, solid, NOTHING))) return false;
  return !voids.some((v) => [...idle].some((i) => takeTheSame(v, i, solid, NOTHING)));
}

function isWhole(feature: Feature, groups: Idle['groups'], { solid }: RuleContext): boolean {
  return groups.flat().length === solid.voidsOf(feature.name).length;
}

/** Other features that remove some of the same. */
function takenBy(feature: Feature, voids: readonly Void[], { solid }: RuleContext): readonly string[] {
  const others = new Set<string>();
  for (const v of voids) {
    for (const w of solid.voids) {
      if (w.feature !== feature.name && takeTheSame(v, w, solid, NOTHING)) others.add(w.feature);
    }
  }
  return [...others];
}
