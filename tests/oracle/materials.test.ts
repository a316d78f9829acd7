/** Densities, moduli, strengths and ISO 513 groups row by row (`data/materials.csv`). */
import assert from 'node:assert/strict';
import { CUTTER_YOUNG } from '../../server/src/tables/cutting.data';
import { findMaterial } from '../../server/src/tables/materials';
import { num, rowsOf } from './csv';

/** The published name, and ours. */
const NAMES: Readonly<Record<string, string>> = {
  '6061-T6': 'aluminium-6061-t6',
  '7075-T6': 'aluminium-7075-t6',
  '2024-T3/T351': 'aluminium-2024-t351',
  '5083-H116': 'aluminium-5083-h116',
  '5083-H111/O': 'aluminium-5083-h111',
  '1018 cold drawn': 'steel-1018',
  'S235JR t<=16': 'steel-s235jr',
  'C45/1045 normalized t<=16': 'steel-c45',
  '4140 annealed': 'steel-4140',
  '4140 Q&T 28-32 HRC': 'steel-4140-qt',
  '304 annealed': 'stainless-304',
  '316 annealed': 'stainless-316',
  'Ti-6Al-4V annealed': 'titanium-6al-4v',
  'C36000 half hard': 'brass-c36000',
  'CW614N/CZ121 R430': 'brass-cw614n',
  'POM-C': 'pom-c',
  HDPE: 'pe-hd',
  PEEK: 'peek',
  'G10/FR4 sheet': 'g10-fr4',
  AZ31B: 'magnesium-az31b',
  'C17200 BeCu': 'beryllium-copper-c17200',
};
/** Rows of what cutters are made of. */
const CUTTERS: Readonly<Record<string, number>> = {
  'cemented carbide WC-Co': CUTTER_YOUNG.carbide.mPa,
  HSS: CUTTER_YOUNG.hss.mPa,
};
/** Strengths that the row itself gives two of: of plate and of sheet. */
const OTHER: Readonly<Record<string, readonly [number, number]>> = { '2024-T3/T351': [324, 469] };

describe('materials', () => {
  for (const row of rowsOf('materials.csv'))
    it(`${row.material} (${row.source})`, () => {
      const young = num(row, 'E_GPa') * 1000;
      if (row.material! in CUTTERS) return assert.equal(CUTTERS[row.material!], young);
      const ours = findMaterial(NAMES[row.material!] ?? '');
      assert.ok(ours, row.material);
      assert.equal(ours.densityGPerCm3, num(row, 'density_g_cm3'));
      assert.equal(ours.youngMPa, young);
      const [fy, fu] = OTHER[row.material!] ?? [Number(row.yield_MPa), Number(row.UTS_MPa!.split('-')[0])];
      assert.equal(ours.yieldMPa ?? 0, fy);
      assert.equal(ours.ultimateMPa ?? 0, fu);
      // `N (fire)`, `plastic`, `composite (dust)`: the group, or what ISO 513 has none for.
      const group = row.ISO513_group!.split(' ')[0]!;
      if (ours.group) assert.equal(ours.group, group);
      else assert.equal(ours.class, group);
      if (/fire|dust/.test(row.ISO513_group!)) assert.ok(ours.caution, 'what can hurt has its caution');
    });
});
