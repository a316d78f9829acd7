/**
 * Clean means makeable: small parts, made up, that no rule calls an error, come out right; and where none warns of it, every
 * tool keeps its margin from what holds the work.
 * Forty clean ones; more with SCRIBELINE_SIMULATE=NUMBER.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { checkPart, checkShop } from '../../server/src/rules/check';
import { SHOP } from './defects';
import { partText } from './generate';
import { inwardFor, marginFor } from './margin';
import { simulate } from './simulate';

const WANTED = Number(process.env.SCRIBELINE_SIMULATE ?? 40);
/** Only warned of, as the parallel can be moved aside or a face left as it is; on the field it is met, or not cut. */
const WARNED = new Set(['hold/drills-the-parallels', 'hold/parallels', 'setup/unassigned']);

describe('clean means makeable', () => {
  it(`${WANTED} clean parts come out right`, function () {
    this.timeout(WANTED * 6000);
    const { shop } = checkShop(SHOP);
    let clean = 0;
    const drawn = new Map<string, number>();
    for (const text of fc.sample(partText, { numRuns: WANTED * 4, seed: 4 })) {
      const { part, findings } = checkPart(text, shop);
      if (findings.some((f) => f.severity === 'error' || (WARNED.has(f.rule) && f.severity !== 'hint'))) continue;
      const { right, excess, gouged, setups } = simulate(part, shop, {
        fineMm: 0.5,
        marginMm: marginFor(findings),
        inward: inwardFor(findings),
      });
      assert.ok(right, `${JSON.stringify({ excess, gouged, setups }, null, 1)}\n${text}`);
      const discs = setups.some((s) => s.cuts.some((c) => c.tools.some((t) => t === 'saw-40' || t === 'tee-14')));
      for (const what of [...part!.features.flatMap(({ kind, face }) => [kind, face]), ...(discs ? ['beside'] : [])])
        drawn.set(what, (drawn.get(what) ?? 0) + 1);
      if (++clean === WANTED) break;
    }
    assert.equal(clean, WANTED);
    for (const what of [
      'hole',
      'pocket',
      'slot',
      'step',
      'contour',
      'chamfer',
      'keyway',
      // What discs cut is seldom drawn; by hand in `disc.test.ts`.
      ...(WANTED >= 80 ? ['beside'] : []),
      'top',
      'bottom',
      'front',
    ])
      assert.ok((drawn.get(what) ?? 0) >= WANTED / 40, `${what}: ${drawn.get(what) ?? 0}`);
  });
});
