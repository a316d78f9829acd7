/**
 * Moving a feature from one set-up to another changes what is said of it, and of nothing that stands clear of it. Parts are
 * drawn at random: features in fields far apart, each cut from one of its own faces or from a wrong one.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { solidOfVolumes } from '../../../server/src/geometry/part-solid';
import { cutsOf, timelineOf } from '../../../server/src/process/stock';
import { checkPart } from '../../../server/src/rules/check';
import type { Finding } from '../../../server/src/rules/kit/rule';
import { endMill, shopWith } from '../shops';

const UPS = ['top', 'bottom', 'front', 'back'] as const;
type Up = (typeof UPS)[number];
const FIELD = 150;
const shop = shopWith(
  endMill('em-6', 6, 20) +
    endMill('em-10', 10, 32) +
    'dr-6: { kind: drill, diameter: 6, flute-length: 40, point: 118 }\n' +
    'cm-6: { kind: chamfer-mill, diameter: 6, angle: 90, reach: 18 }\n',
);

interface Drawn {
  readonly kind: 'pocket' | 'blind' | 'through' | 'side';
  readonly depth: number;
}
const feature = fc.record<Drawn>({
  kind: fc.constantFrom('pocket', 'blind', 'through', 'side'),
  // Some within reach (em-6: 20), some not once the 4 mm over the top are counted, some not at all.
  depth: fc.constantFrom(8, 15, 18, 24),
});

function text(features: readonly Drawn[], where: readonly Up[], topFirst: boolean): string {
  const lines = features.map(({ kind, depth }, i) => {
    const x = FIELD * (i + 0.5);
    switch (kind) {
      case 'pocket':
        return `  f${i}: { kind: pocket, face: top, at: { x: ${x}, y: 40 }, size: { x: 20, y: 16 }, corner-radius: 3.5, depth: ${depth} }`;
      case 'blind':
        return `  f${i}: { kind: hole, face: bottom, at: { x: ${x}, y: 40 }, diameter: 6, depth: ${depth} }`;
      case 'through':
        return `  f${i}: { kind: hole, face: top, at: { x: ${x}, y: 40 }, diameter: 6, depth: through }`;
      default:
        return `  f${i}: { kind: hole, face: front, at: { x: ${x}, z: 15 }, diameter: 6, depth: ${depth} }`;
    }
  });
  const setups = UPS.map((up) => {
    const own = features.flatMap((_, i) => (where[i] === up ? [`f${i}`] : []));
    const cuts = up !== 'top' ? own : topFirst ? ['top', ...own] : [...own, 'top'];
    return cuts.length > 0 ? `  ${up}-up: { up: ${up}, cuts: [${cuts.join(', ')}] }` : '';
  });
  return `part: fields
material: aluminium-6061-t6
body: { x: ${FIELD * features.length}, y: 80, z: 30 }
stock: { form: block, extra: { top: 4 } }
features:
${lines.join('\n')}
setups:
${setups.filter(Boolean).join('\n')}
`;
}

const told = (findings: readonly Finding[]) =>
  findings
    .filter((f) => f.rule.startsWith('access/') || f.rule === 'corner/inside-radius')
    .map((f) => ({ of: f.of.join(' '), said: `${f.rule} ${JSON.stringify(f.facts)}` }));

/** What a machinist would say of one of them, worked out by hand. */
function expected({ kind, depth }: Drawn, up: Up, topFirst: boolean): readonly string[] {
  const ways: readonly Up[] =
    kind === 'pocket' ? ['top'] : kind === 'blind' ? ['bottom'] : kind === 'side' ? ['front'] : ['top', 'bottom'];
  // Corners of 3.5 let only em-6 in: too deep wherever it is cut, or only while the top stands over it.
  const deep = kind === 'pocket' && depth > 20 ? ['corner/inside-radius'] : [];
  if (!ways.includes(up)) return [...deep, 'access/no-setup'];
  // A drill of 40 does everything here: 30 and 4 over it at most.
  if (kind !== 'pocket' || deep.length > 0) return deep;
  return depth + (topFirst ? 0 : 4) > 20 ? ['access/reach'] : [];
}

describe('moving a feature from set-up to set-up', () => {
  const plan = fc.array(feature, { minLength: 2, maxLength: 5 }).chain((features) =>
    fc.record({
      features: fc.constant(features),
      where: fc.array(fc.constantFrom(...UPS), { minLength: features.length, maxLength: features.length }),
      moved: fc.nat(features.length - 1),
      to: fc.constantFrom(...UPS),
      topFirst: fc.boolean(),
    }),
  );

  it('each is judged in its own set-up, and the others are told of as before', () => {
    fc.assert(
      fc.property(plan, ({ features, where, moved, to, topFirst }) => {
        const after = where.map((up, i) => (i === moved ? to : up));
        const one = told(checkPart(text(features, where, topFirst), shop).findings);
        const two = told(checkPart(text(features, after, topFirst), shop).findings);
        const others = (all: ReturnType<typeof told>) =>
          all
            .filter((f) => f.of !== `f${moved}`)
            // How many set-ups there are is said of those that none can cut.
            .map((f) => `${f.of} ${f.said.replace(/"set_ups":\d+/, '')}`);
        assert.deepEqual(others(two), others(one));
        for (const [all, ups] of [
          [one, where],
          [two, after],
        ] as const) {
          features.forEach((drawn, i) => {
            const mine = all.filter((f) => f.of === `f${i}`).map((f) => f.said.split(' ')[0]);
            const want = expected(drawn, ups[i]!, topFirst);
            // Where top is faced last but the pocket is cut in the set-up before it, the excess is there as well.
            assert.deepEqual(mine, want, `f${i} ${drawn.kind} ${drawn.depth} with ${ups[i]} up`);
          });
        }
      }),
      { seed: 20260729, numRuns: 60 },
    );
  });

  it('what is left in the end does not depend on the order', () => {
    fc.assert(
      fc.property(plan, ({ features, where, topFirst }) => {
        const { part, solid } = checkPart(text(features, where, topFirst), shop);
        const timeline = timelineOf(part, solid);
        const last = timeline.setups[timeline.setups.length - 1]!.after;
        const volume = solidOfVolumes(last).measures.volumeMm3;
        const topGone = cutsOf(timeline, 'top').length > 0;
        const want = solid.measures.volumeMm3 + (topGone ? 0 : 4 * FIELD * features.length * 80);
        if (topGone) assert.ok(Math.abs(volume - want) < 1e-6 * want, `${volume} is not ${want}`);
        else assert.ok(volume <= want + 1e-6 * want);
      }),
      { seed: 20260730, numRuns: 30 },
    );
  });
});
