/** hole/near-edge – a tapped hole with too little material beside it. */
import type { Wall } from '../../geometry/types';
import type { Hole } from '../../spec/model';
import { moveFeature } from '../edits';
import { subjectOf } from '../fields';
import { fact, memberOf, roundUp, spanOf } from '../message';
import type { Finding, Fix, Rule, RuleContext } from '../rule';

const NAME = 'hole/near-edge';

interface Near {
  readonly hole: Hole;
  readonly wall: Wall;
  readonly needMm: number;
}

/** For each tapped hole the thinnest web to the outside. Thin webs of any hole are `wall/thin`'s matter. */
function* nearOnes({ part, solid, limit }: RuleContext): Generator<Near> {
  const tapped = part.features.filter((f): f is Hole => f.kind === 'hole' && f.thread?.spec !== undefined);
  const most = Math.max(0, ...tapped.map((h) => limit('web') * h.thread!.spec!.diameterMm));
  if (most === 0) return;
  const walls = solid.walls(most);
  for (const hole of tapped) {
    const needMm = limit('web') * hole.thread!.spec!.diameterMm;
    const wall = walls.find(
      (w) => w.type === 'wall' && typeof w.b === 'string' && w.a.feature === hole.name && w.a.role === 'bore',
    );
    if (wall && wall.thicknessMm < needMm - 1e-6) yield { hole, wall, needMm };
  }
}

export const nearEdge: Rule = {
  name: NAME,
  severity: 'hint',
  summary: 'A tapped hole has less than its own diameter of material to the outside.',
  why: 'A thread spreads the wall around it: with too little beside it the wall bulges when tapped, and splits when the screw is drawn up.',
  formula:
    '`web_mm`, from the tap hole’s wall to the nearest outer face of the finished part, against `web` × the thread’s diameter (`needed_mm`).',
  limits: [
    {
      name: 'web',
      value: 1,
      unit: 'ratio',
      what: 'material beside a tapped hole, of the thread’s diameter (hint below)',
      source: 'common practice, no source (hole edge to part edge 1 to 1.5 D is comfortable)',
    },
  ],
  bad: `part: bracket
material: aluminium-6061-t6
body: { x: 50, y: 20, z: 12 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: 5 }
    thread: M6
    depth: through
`,
  good: `part: bracket
material: aluminium-6061-t6
body: { x: 50, y: 20, z: 12 }
features:
  fix:
    kind: hole
    face: top
    at: { x: center, y: 8.5 }
    thread: M6
    depth: through
`,
  mends: 'The hole moved in.',
  *find(context): Generator<Finding> {
    const { length, limit } = context;
    for (const { hole, wall, needMm } of nearOnes(context)) {
      yield {
        rule: NAME,
        severity: 'hint',
        message: `Only ${length(wall.thicknessMm)} of material stand between the ${hole.thread!.designation} hole and the ${wall.b as string} face; ${length(needMm)} (${limit('web')} diameters, a rule of thumb) keep the thread from bulging it. Move it in by ${length(needMm - wall.thicknessMm)}.`,
        of: [memberOf(wall.a)],
        span: spanOf(hole, 'at', 'thread'),
        related: [],
        facts: {
          web_mm: fact(wall.thicknessMm),
          needed_mm: fact(needMm),
          ratio: limit('web'),
          missing_mm: fact(needMm - wall.thicknessMm),
        },
        at: wall.at,
      };
    }
  },
  *mend(finding, context): Generator<Fix> {
    const { part, tree, length } = context;
    const near = [...nearOnes(context)].find((n) => n.hole === subjectOf(finding, part));
    if (!near) return;
    const { hole, wall, needMm } = near;
    const by = roundUp(needMm - wall.thicknessMm, part.units);
    const { u, v } = wall.a.frame;
    const across = [0, 1, 2].map((i) => wall.at[0][i]! - wall.at[1][i]!);
    const size = Math.hypot(...across) || 1;
    const along = (d: readonly number[]) => d.reduce((sum, c, i) => sum + c * across[i]!, 0) / size;
    const edits = moveFeature(tree, part, hole, along(u) * by, along(v) * by, wall.a.member);
    if (edits) yield { title: `Move it in by ${length(by)}`, safe: false, edits };
  },
};
