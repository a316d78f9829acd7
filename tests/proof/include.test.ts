/**
 * A part that includes its features from another file is the part written out: generated parts, with parameters for
 * numbers, taken as they lie; and those of one face, laid on any other, against the part turned by `turn.ts`.
 *
 * A few small parts with every run; `PROOF_RUNS=20` draws twenty times as many, and `PROOF_SEED` others.
 */
import assert from 'node:assert/strict';
import fc from 'fast-check';
import { parse, stringify } from 'yaml';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { checkPart } from '../../server/src/rules/check';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Others } from '../../server/src/text/tree';
import { partTexts } from './parts';
import { assertSame, SAME } from './same';
import {
  AXES,
  type FaceName,
  handOf,
  keepsLetters,
  TURNS,
  type Turn,
  turnedFace,
  turnedText,
  withParameters,
} from './turn';

type Fields = Record<string, unknown>;
const runs = Number(process.env.PROOF_RUNS ?? 1);
const from = Number(process.env.PROOF_SEED ?? 0);
const SHOP = builtinShop();
const DRAWN = ['hole', 'pocket', 'slot', 'contour', 'groove'];
const RIGHT: ReadonlySet<FaceName> = new Set(['top', 'front', 'right']);

const beside = (text: string): Others => new Map([['t.part.yaml', { path: '/t', text, others: new Map() }]]);

/** The part without its features, and the group in their place. */
function including(text: string, group: Fields): string {
  const { features: _, ...part } = parse(text) as Fields;
  return stringify({ ...part, include: { g: { from: 't.part.yaml', ...group } } });
}

/** The features of one face alone, where they stand on no others. */
function ofOneFace(text: string): { readonly text: string; readonly face: FaceName } | undefined {
  const part = parse(text) as { features?: Record<string, Fields> };
  const face = Object.values(part.features ?? {}).find((f) => f.face)?.face as FaceName | undefined;
  const own = Object.entries(part.features ?? {}).filter(
    ([, f]) => f.face === face && DRAWN.includes(String(f.kind)) && !f.from && !f.in,
  );
  return face && own.length > 0 ? { text: stringify({ ...part, features: Object.fromEntries(own) }), face } : undefined;
}

/** How the group is turned so that it lies as the turned part has it. */
function placed(turn: Turn, face: FaceName, size: Fields): Fields {
  const planeOf = (f: FaceName) => AXES.filter((a) => turnedNormal(f) !== a);
  const to = turnedFace(turn, face);
  const [first, second] = planeOf(to);
  const { to: axis, sign } = turn[planeOf(face)[0]!];
  const base = RIGHT.has(face) === RIGHT.has(to) ? 0 : 180;
  const now = (axis === first ? 0 : 90) + (sign > 0 ? 0 : 180);
  const middle = (a: string | undefined) => (size[a!] as number) / 2;
  return { face: to, at: { [first!]: middle(first), [second!]: middle(second) }, rotate: (now - base + 360) % 360 };
}

/** One solid, and the same said of it. Of walls that are alike, another member of a pattern may be the one that is told. */
function assertLike(a: CheckedPart, b: CheckedPart): void {
  const [m, n] = [a.solid.measures, b.solid.measures];
  if (m.exact && n.exact) assert.ok(Math.abs(m.volumeMm3 - n.volumeMm3) < 1e-3, `${m.volumeMm3} ${n.volumeMm3}`);
  const said = ({ findings }: CheckedPart) =>
    findings.map((f) => `${f.rule} ${f.severity} ${[...new Set(f.of.map((o) => o.replace(/\[\d+\]/, '')))].sort()}`);
  assert.deepEqual(said(b).sort(), said(a).sort());
  const places = ({ part }: CheckedPart) =>
    part.features.map((f) => [f.name, f.face, ...f.places.map((p) => `${round(p.u)} ${round(p.v)}`).sort()].join(', '));
  if (!/path|ends/.test(a.tree.text)) assert.deepEqual(places(b), places(a));
}

const round = (mm: number) => Number(mm.toFixed(6)) + 0;

function turnedNormal(face: FaceName): string {
  return face === 'left' || face === 'right' ? 'x' : face === 'front' || face === 'back' ? 'y' : 'z';
}

function holds(kinds: readonly string[], property: (text: string, pick: number) => void, seed: number): void {
  const parts = partTexts(runs > 1 ? 5 : 2, [...kinds]).filter(({ text }) => !/tilt|floor-radius/.test(text));
  fc.assert(
    fc.property(parts, fc.nat(4799), ({ text }, pick) => property(text, pick)),
    { numRuns: 3 * runs, seed: seed + from, endOnFailure: !process.env.PROOF_SHRINK },
  );
}

describe('proof: a part with an include is the part written out', function () {
  this.timeout(runs > 1 ? 3_600_000 : 120_000);

  it('as it lies there, by parameters of its own', () => {
    const kinds = [...DRAWN, 'keyway', 'step', 'edges', 'slope', 'sign'];
    holds(
      kinds,
      (text) => {
        if (!/\n {2}\w/.test(text)) return;
        const others = beside(withParameters(text));
        assertSame(checkPart(text, SHOP), checkPart(including(text, {}), SHOP, undefined, others), SAME);
      },
      71,
    );
  });

  it('laid on another face, turned', () => {
    let count = 0;
    holds(
      DRAWN,
      (whole, pick) => {
        const one = ofOneFace(whole);
        if (!one) return;
        const { text, face } = one;
        const turns = TURNS.filter((t) => handOf(t) > 0 && keepsLetters(t, text));
        const turn = turns[pick % turns.length]!;
        const turned = turnedText(text, turn);
        const { body } = parse(turned) as { body: Fields };
        if (!('x' in body)) return;
        const group = { place: placed(turn, face, body) };
        const brought = checkPart(including(turned, group), SHOP, undefined, beside(text));
        assert.ok(brought.part.features.length > 0, JSON.stringify(brought.findings[0]));
        assertLike(checkPart(turned, SHOP), brought);
        count++;
      },
      72,
    );
    assert.ok(count > 0);
  });
});
