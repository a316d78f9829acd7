/** The thread of a boss in its set-up: the thread mill that goes round it, and what that meets. */
import { featureFrame, inward } from '../../geometry/frame';
import type { Vec3 } from '../../geometry/types';
import { threadedBoss } from '../../model/feature-kinds';
import { FACE_PLANE, type Feature } from '../../model/model';
import { type Boss, roundMm, threadingOf, tipBelowMm } from '../boss-threads';
import { depthBelow } from '../column';
import type { Case } from './case';
import { troubleOf, tryTools } from './try-tools';
import type { Verdict } from './verdict';

type Found = Pick<Verdict, 'uses'> & Partial<Pick<Verdict, 'short' | 'holder' | 'fixture'>>;

/** Nothing where no thread mill is used: a die is turned by hand, off the machine. */
export function bossThreaded(c: Case, feature: Feature): Found {
  const boss = threadedBoss(feature);
  const asked = c.asked?.kind === 'thread-mill' ? c.asked : undefined;
  const made = boss && threadingOf(boss, c.shop, asked);
  if (!boss || made?.by !== 'mill' || boss.face !== c.up) return { uses: [] };
  const { tool } = made;
  const belowMm = tipBelowMm(boss);
  const stands = boss.places.flatMap((p) =>
    standsRound(boss, c, featureFrame(boss, c.part.size, p).origin, roundMm(boss, tool)),
  );
  const tried = tryTools(
    [tool],
    {
      up: c.up,
      get place() {
        return c.place;
      },
      body: c.cut.before.body,
      obstacles: c.obstacles,
      topMm: c.topMm,
      tipMm: Math.max(...stands.map((p) => depthBelow(c.cut.before, c.up, p))),
      does: 'thread',
      leastReachMm: belowMm,
      stands: () => stands,
    },
    c.shop,
  );
  if (tried.use) return { uses: [tried.use] };
  return { uses: [], ...troubleOf(tried, [tool], 'thread mill', belowMm) };
}

/** Directions in which a tool that goes round is looked at. */
const ROUND = 12;

/** Where the cutter's axis goes, at the depth of its tip: from the boss's end as far down as its thread. */
function standsRound(boss: Boss, { up }: Case, origin: Vec3, offMm: number): readonly Vec3[] {
  const down = inward(up);
  const deep = boss.startMm + tipBelowMm(boss);
  const foot = origin.map((x, i) => x + down[i]! * deep) as [number, number, number];
  const [a, b] = FACE_PLANE[up].map((axis) => 'xyz'.indexOf(axis)) as [number, number];
  return Array.from({ length: ROUND }, (_, i) => {
    const at: [number, number, number] = [...foot];
    at[a]! += offMm * Math.cos((2 * Math.PI * i) / ROUND);
    at[b]! += offMm * Math.sin((2 * Math.PI * i) / ROUND);
    return at;
  });
}
