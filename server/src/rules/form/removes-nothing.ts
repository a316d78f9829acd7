import type { Void } from '../../geometry/types';
import { breaksEdges } from '../../model/feature-kinds';
import type { Feature } from '../../model/model';
import { at, entry } from '../../text/tree';
import { removeEntry } from '../kit/edits';
import { list, memberName } from '../kit/message';
import type { Finding, Rule, RuleContext } from '../kit/rule';
import { takesAlone, takesSomething, takeTheSame } from '../kit/samples';

/** Less than this is the dust of floating point, mm³. */
const NOTHING = 1e-4;

export const removesNothing: Rule = {
  name: 'form/removes-nothing',
  severity: 'warning',
  summary: 'A feature that lies wholly in what other features remove.',
  why: 'It costs a tool and a line on the setup sheet and changes nothing. Usually it was meant to be deeper, elsewhere, or to start on the floor of the other feature.',
  formula: 'Volume that the feature alone removes from the body (`alone_mm3`), all others cut.',
  limits: [],
  bad: `part: cover
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
`,
  good: `part: cover
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
    from: window
    at: { x: center, y: center }
    diameter: 8
    bottom: flat
    depth: 2
`,
  *find(context): Iterable<Finding> {
    const idle = new Set<Void>();
    const found: Finding[] = [];
    // The later of two that remove the same is the one too many.
    for (const feature of [...context.part.features].reverse()) {
      const groups = groupsOf(feature, context).filter((voids) => isIdle(voids, idle, context));
      for (const v of groups.flat()) idle.add(v);
      if (groups.length > 0) found.push(finding(feature, groups, context));
    }
    yield* found.reverse();
  },
  mends: 'The feature is removed; the shape of the part stays as it is.',
  *mend({ of, facts }, { part, tree }) {
    const feature = part.featureByName.get(of[0] ?? '');
    const map = at(tree.root, 'features');
    const gone = feature && entry(map, feature.name);
    if (map?.type !== 'map' || !gone || facts.whole !== 'yes') return;
    yield {
      title: `Remove \`${feature.name}\`: the part’s shape stays as it is`,
      safe: false,
      edits: removeEntry(tree, map, gone, entry(tree.root, 'features')),
    };
  },
};

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

function finding(feature: Feature, groups: readonly (readonly Void[])[], { solid, part }: RuleContext): Finding {
  const names = groups.map((voids) => memberName(feature.name, voids[0]!.member));
  const others = new Set<string>();
  for (const v of groups.flat()) {
    for (const w of solid.voids) {
      if (w.feature !== feature.name && takeTheSame(v, w, solid, NOTHING)) others.add(w.feature);
    }
  }
  const taken = [...others];
  const whole = groups.flat().length === solid.voidsOf(feature.name).length;
  return {
    rule: 'form/removes-nothing',
    severity: 'warning',
    message: `${list(names.map((n) => `\`${n}\``))} ${names.length > 1 ? 'remove' : 'removes'} nothing: ${taken.length ? list(taken.map((n) => `\`${n}\``)) : 'another feature'} ${taken.length > 1 ? 'have' : 'has'} already taken all of it. Make it deeper, move it, or let it start on a floor with \`from\`.`,
    of: names,
    span: feature.nameSpan,
    related: taken.flatMap((name) => {
      const other = part.featureByName.get(name);
      return other ? [{ span: other.nameSpan, message: `\`${name}\` removes it` }] : [];
    }),
    facts: { alone_mm3: 0, members: names.length, whole: whole ? 'yes' : 'no' },
  };
}
