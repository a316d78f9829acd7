/** ISO 2768, drill points, roughness of units: against published tables and closed forms. */
import assert from 'node:assert/strict';
import { pointLengthMm } from '../../server/src/tables/drill-point';
import {
  generalAngle,
  generalGeometric,
  generalLinear,
  generalRadius,
} from '../../server/src/tables/general-tolerances';
import {
  G_PER_LB,
  G_PER_OZ,
  MM_PER_INCH,
  N_PER_KGF,
  N_PER_LBF,
  NM_PER_FT_LBF,
  NM_PER_IN_LBF,
  W_PER_HP,
  W_PER_PS,
} from '../../server/src/tables/units';
import { near } from './near';

describe('oracle: ISO 2768', () => {
  // ISO 2768-1:1989 Table 1, read from four public tables that agree: at the upper end of each range and just over it.
  const TABLE_1 = {
    f: [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, undefined],
    m: [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0],
    c: [0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0],
    v: [undefined, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0],
  } as const;
  const ENDS = [0.5, 3, 6, 30, 120, 400, 1000, 2000, 4000];

  it('Table 1: linear sizes', () => {
    for (const of of ['f', 'm', 'c', 'v'] as const) {
      TABLE_1[of].forEach((value, i) => {
        assert.equal(generalLinear(ENDS[i + 1]!, of)?.value, value, `${of} at ${ENDS[i + 1]}`);
        if (i > 0) assert.equal(generalLinear(ENDS[i]! + 0.001, of)?.value, value, `${of} over ${ENDS[i]}`);
      });
      assert.equal(generalLinear(0.499, of), undefined, 'below 0.5 the standard gives none');
      assert.equal(generalLinear(4000.1, of), undefined);
    }
    assert.equal(generalLinear(0.5, 'm')?.value, 0.1, 'the first range includes its lower end');
  });

  // Copies on the web have 0.15 and 0.2 for class c up to 6 mm: that is DIN 7168. They have 20' for 120 to 400 mm.
  it('Tables 1 and 3: where copies go wrong', () => {
    assert.equal(generalLinear(2, 'c')?.value, 0.2);
    assert.equal(generalLinear(5, 'c')?.value, 0.3);
    assert.equal(generalLinear(5, 'm')?.value, 0.1);
    near(generalAngle(200, 'c')!.value, 15 / 60, 1e-12);
  });

  it('Table 2: external radii and chamfers', () => {
    assert.deepEqual(
      [1, 4, 10].map((r) => generalRadius(r, 'm')?.value),
      [0.2, 0.5, 1],
    );
    assert.deepEqual(
      [1, 4, 10].map((r) => generalRadius(r, 'v')?.value),
      [0.4, 1, 2],
    );
    assert.equal(generalRadius(0.3, 'm'), undefined);
  });

  it('Table 3: angles, by the shorter leg', () => {
    assert.deepEqual(
      [10, 50, 120, 400, 401].map((l) => generalAngle(l, 'm')!.value * 60),
      [60, 30, 20, 10, 5],
    );
    assert.deepEqual(
      [10, 50, 120, 400, 401].map((l) => generalAngle(l, 'v')!.value * 60),
      [180, 120, 60, 30, 20],
    );
  });

  // ISO 2768-2:1989 Table 1 from a public table; Tables 2 to 4 from memory.
  it('part 2: straightness and flatness, perpendicularity, symmetry, run-out', () => {
    assert.deepEqual(
      [10, 30, 100, 300].map((l) => generalGeometric('flatness', l, 'K')?.value),
      [0.05, 0.1, 0.2, 0.4],
    );
    assert.equal(generalGeometric('straightness', 3000, 'L')?.value, 1.6);
    assert.equal(generalGeometric('perpendicularity', 100, 'K')?.value, 0.4);
    assert.equal(generalGeometric('symmetry', 101, 'K')?.value, 0.6);
    assert.equal(generalGeometric('symmetry', 999, 'K')?.value, 0.8);
    assert.equal(generalGeometric('runout', 40, 'H')?.value, 0.1);
    assert.equal(generalGeometric('flatness', 3001, 'H'), undefined);
  });
});

describe('oracle: drill points', () => {
  // Geometry: 0.5 D / tan(point / 2). For D = 1: 0.30043 at 118°, 0.20711 at 135°, 0.18199 at 140°, 0.5 at 90°.
  it('length of the cone, per diameter', () => {
    near(pointLengthMm(1, 118), 0.30043, 1e-5);
    near(pointLengthMm(1, 135), 0.20711, 1e-5);
    near(pointLengthMm(1, 140), 0.18199, 1e-5);
    near(pointLengthMm(1, 90), 0.5, 1e-12);
    near(pointLengthMm(6, 118), 6 * 0.30043, 1e-4);
    assert.equal(pointLengthMm(6, 180), 0);
  });
});

describe('oracle: units', () => {
  // NIST SP 811, appendix B.8; exact ones from the definitions of inch, pound and kilogram-force.
  it('identities of NIST SP 811', () => {
    assert.equal(MM_PER_INCH, 25.4);
    near(N_PER_LBF, (G_PER_LB / 1000) * N_PER_KGF, 1e-12, 'lbf = lb × g');
    near(N_PER_LBF, 4.448222, 5e-7, 'NIST: 4.448 222 N');
    near(NM_PER_FT_LBF, 1.355818, 5e-7, 'NIST: 1.355 818 N·m');
    near(NM_PER_IN_LBF, 0.1129848, 5e-8, 'NIST: 0.112 984 8 N·m');
    near(NM_PER_IN_LBF * 12, NM_PER_FT_LBF, 1e-15, 'twelve inches to the foot');
    near(W_PER_HP, 745.6999, 5e-5, 'NIST: 745.6999 W');
    near(W_PER_PS, 735.4988, 5e-5, 'NIST: 735.4988 W');
    near(G_PER_OZ * 16, G_PER_LB, 1e-12, 'sixteen ounces to the pound');
  });
});
