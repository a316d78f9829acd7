/** form/island-outside – an island that does not stand in its pocket. */
import { subtractRegions } from '../../geometry/2d/assemble-loops';
import { centroidOf, loopArea, momentsOf, regionMoments } from '../../geometry/2d/moments';
import { mapLoop, shift } from '../../geometry/2d/plane-map';
import { outlineOf } from '../../geometry/2d/shape-outline';
import type { Loop, Point2 } from '../../geometry/types';
import { FACE_PLANE, type Island, type Pocket } from '../../model/model';
import { setText } from '../../text/edit';
import { change, edited } from '../kit/changes';
import { defineRule } from '../kit/define';
import { nodeAt, removeEntry } from '../kit/edits';
import { removeField } from '../kit/fields';
import type { Rule, RuleContext } from '../kit/rule';

/** Less than this is the dust of floating point, mm². */
const NOTHING = 1e-6;

interface Stray {
  readonly pocket: Pocket;
  readonly island: Island;
  /** Relative to the pocket's place: where its outline would stand in the pocket. */
  readonly meant: readonly { readonly title: string; readonly at: Point2 }[];
}

function* strays({ part }: RuleContext): Generator<Stray> {
  for (const pocket of part.features) {
    if (!('islands' in pocket)) continue;
    const outer = outlineOf(pocket.shape);
    if (!outer) continue;
    for (const island of pocket.islands) {
      const loop = outlineOf(island.shape);
      if (!loop || sharedMm2(outer, loop, island.place) !== 0) continue;
      const [place] = pocket.places;
      const written = { u: island.place.u + (place?.u ?? 0), v: island.place.v + (place?.v ?? 0) };
      const [middle, own] = [centroidOf(momentsOf(outer.edges)), centroidOf(momentsOf(loop.edges))];
      const all = Math.abs(loopArea(loop));
      const meant = [
        { title: 'Move it by the pocket’s place', at: written },
        { title: 'Put it in the middle of the pocket', at: { u: middle.u - own.u, v: middle.v - own.v } },
      ].filter(({ at }) => Math.abs((sharedMm2(outer, loop, at) ?? 0) - all) < NOTHING);
      yield { pocket, island, meant };
    }
  }
}

/** How much of an island stands in its pocket; undefined where that could not be worked out. */
function sharedMm2(outer: Loop, island: Loop, { u, v }: Point2): number | undefined {
  const moved = mapLoop(shift(u, v), island);
  const rest = subtractRegions({ outer, holes: [] }, [{ outer: moved, holes: [] }]);
  if (!rest) return undefined;
  const shared = Math.abs(loopArea(outer)) - Math.abs(rest.reduce((sum, r) => sum + regionMoments(r).area, 0));
  return shared < NOTHING ? 0 : shared;
}

const BAD = `part: plate
material: aluminium-6061-t6
body: { x: 80, y: 50, z: 12 }
features:
  well:
    kind: pocket
    face: top
    at: { x: 50, y: center }
    size: { x: 40, y: 34 }
    corner-radius: 5
    depth: 6
    islands:
      post: { diameter: 8, at: { x: 0, y: 0 } }
`;

export const islandOutside: Rule = defineRule({
  name: 'form/island-outside',
  severity: 'warning',
  summary: 'An island stands outside its pocket, so nothing of it is left standing.',
  why: 'An island is what the cutter leaves inside a pocket. Where the two do not meet, the pocket is cut empty, and the post that was meant is chips.',
  formula:
    'The area that the outlines of island and pocket share. The place of an island counts in part axes or from faces, as every place does. It does not count from its pocket.',
  limits: [],
  bad: BAD,
  good: edited(BAD, ['post: { diameter: 8, at: { x: 0, y: 0 } }', 'post: { diameter: 8, at: { x: 50, y: center } }']),
  find: strays,
  tell: ({ pocket, island }) => ({
    message: `Island ${island.name} stands outside pocket ${pocket.name}, so nothing of it is left standing. Give its place in part axes or from faces, inside the pocket.`,
    of: [pocket.name],
    span: island.place.span,
    related: [{ span: pocket.nameSpan, message: `the pocket is ${pocket.name}` }],
    facts: {
      shared_mm2: 0,
      island: island.name,
      u_mm: island.place.u + (pocket.places[0]?.u ?? 0),
      v_mm: island.place.v + (pocket.places[0]?.v ?? 0),
    },
  }),
  mends: 'Put the island where it was meant, or delete it: the shape of the part stays as it is.',
  keep: ({ pocket, island, meant }) => ({ pocket: pocket.name, island: island.name, meant }),
  *mend({ pocket: name, island, meant }, { part, tree, write }) {
    const pocket = part.featureByName.get(name);
    const all = nodeAt(tree, name, 'islands');
    const own = nodeAt(tree, name, 'islands', island);
    if (!pocket || all?.type !== 'map' || own?.type !== 'map') return;
    const [a, b] = FACE_PLANE[pocket.face];
    const { u, v } = pocket.places[0]!;
    for (const { title, at } of meant)
      yield change(title, setText(tree, own, 'at', `{ ${a}: ${write(u + at.u)}, ${b}: ${write(v + at.v)} }`));
    const entry = all.entries.find((e) => e.key.value === island);
    const title = `Delete ${island}: the shape of the part stays as it is`;
    if (all.entries.length === 1) yield change(title, removeField(tree, name, 'islands'));
    else if (entry) yield change(title, removeEntry(tree, all, entry));
  },
});
