/** The thread of a boss in its set-up: the thread mill that goes round it, and what that meets. */
import { threadedBoss } from '../../model/feature-kinds';
import type { Feature } from '../../model/model';
import { roundMm, threadingOf, tipBelowMm } from '../boss-threads';
import { standsRound } from '../boss-undercuts';
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
  const stands = boss.places.flatMap((p) => standsRound(boss, p, c.part.size, { offMm: roundMm(boss, tool), belowMm }));
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
