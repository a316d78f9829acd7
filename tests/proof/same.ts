/**
 * Two checked parts that are one part said in two ways must come to the same: volume, balance point, lumps, walls, stock
 * and findings.
 */
import assert from 'node:assert/strict';
import { stockSizeMm } from '../../server/src/model/stock';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Finding } from '../../server/src/rules/kit/rule';
import { AXES, isFace, TURNS, type Turn, turnedFace, turnedPoint } from './turn';

/** As it lies. */
export const SAME: Turn = TURNS[0]!;

/** What a finding would have done about it is rounded to the document's units: `7.3 mm`, `0.29 in`. */
const SUGGESTED = new Set(['needed_radius_mm', 'flat_mm', 'missing_mm', 'allowed_depth_mm']);

const bare = (name: string) => name.replace(/\[\d+\]/g, '');
const near = (a: number, b: number, within: number) => Math.abs(a - b) <= within;

/** A finding in a form that does not hang on how the part lies: rule, features without member numbers, its numbers. */
function told(
  f: Finding,
  suggestions: boolean,
  turn: Turn,
): { readonly what: string; readonly numbers: readonly number[] } {
  const facts = Object.entries(f.facts)
    .filter(([key, v]) => typeof v === 'number' && (suggestions || !SUGGESTED.has(key)))
    .sort(([a], [b]) => (a < b ? -1 : 1));
  // sizes along the part's axes go with the axes
  const axial = facts.filter(([key]) => /^[xyz]_mm$/.test(key)).map(([, v]) => v as number);
  axial.sort((m, n) => m - n);
  return {
    what: `${f.rule} ${f.severity} ${f.of
      .map((n) => (isFace(n) ? turnedFace(turn, n) : bare(n)))
      .sort()
      .join()} ${facts.map(([key]) => key).join()}`,
    // the sense of an angle goes with the axis that it is about
    numbers: facts.map(([key, v]) => {
      if (/^[xyz]_mm$/.test(key)) return axial.shift()!;
      return key.endsWith('_deg') ? Math.abs(v as number) : (v as number);
    }),
  };
}

function assertSameFindings(a: CheckedPart, b: CheckedPart, suggestions: boolean, turn: Turn): void {
  // volumes that are told as near only may be near in another way
  const sure = a.solid.measures.exact && b.solid.measures.exact;
  const same = (what: string, m: number, n: number) =>
    Math.abs(m - n) <= (!sure && what.includes('_mm3') ? 0.05 * Math.max(m, n) : 2e-3);
  const left = b.findings.map((f) => told(f, suggestions, SAME));
  for (const one of a.findings.map((f) => told(f, suggestions, turn))) {
    const i = left.findIndex((x) => x.what === one.what && x.numbers.every((n, k) => same(x.what, n, one.numbers[k]!)));
    assert.ok(i >= 0, `lost: ${one.what} ${one.numbers.join(' ')}; left: ${JSON.stringify(left)}`);
    left.splice(i, 1);
  }
  assert.deepEqual(left, [], 'findings that were not there before');
}

/** `turn`: how `b` lies to `a`. */
export function assertSame(a: CheckedPart, b: CheckedPart, turn: Turn, suggestions = true): void {
  const [p, q] = [a.solid.measures, b.solid.measures];
  // a number that is told as rough may be rough in another way
  if (p.exact && q.exact) {
    assert.ok(near(p.volumeMm3, q.volumeMm3, 1e-6 * p.volumeMm3), `volume ${p.volumeMm3}, ${q.volumeMm3}`);
    const [x, y, z] = a.part.size;
    const centroid = turnedPoint(turn, p.centroid, { x, y, z });
    for (const i of [0, 1, 2] as const) assert.ok(near(q.centroid[i], centroid[i]!, 1e-3), `balance along ${AXES[i]}`);
  }
  assert.equal(a.solid.pieces, b.solid.pieces);
  // a limit off every grid: no wall is as thick as that but for rounding
  const thick = (c: CheckedPart) => c.solid.walls(2.00371).map((w) => w.thicknessMm);
  const [walls, others] = [thick(a), thick(b)];
  assert.equal(walls.length, others.length, `walls ${walls.join(' ')}; ${others.join(' ')}`);
  walls.forEach((w, i) => {
    assert.ok(near(w, others[i]!, 1e-4), `walls ${walls.join(' ')}; ${others.join(' ')}`);
  });
  const stock = (c: CheckedPart) => [...stockSizeMm(c.part)].sort((m, n) => m - n);
  stock(a).forEach((s, i) => {
    assert.ok(near(s, stock(b)[i]!, 1e-6), 'stock');
  });
  assertSameFindings(a, b, suggestions, turn);
}
