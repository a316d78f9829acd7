/** Tables of materials and of how they are cut and held, row by row. */

import { CUTTING_ROWS, KIENZLE_ROWS } from '../../tables/cutting.data';
import { JAW_FRICTION } from '../../tables/holding.data';
import { MATERIALS } from '../../tables/materials';
import { DRILLING_ROWS, TAP_FORCE } from '../../tables/plunging.data';
import { PROCESSES } from '../../tables/process';
import { END_MILL, JOBBER } from '../../tables/tool-lengths';
import type { PublishedTable } from './source';

export function cuttingTables(): readonly PublishedTable[] {
  return [...ofMaterials(), ...ofCuts(), ...ofShops()];
}

function ofMaterials(): readonly PublishedTable[] {
  return [
    {
      name: 'materials',
      what: 'Materials: typical values for choosing and weighing.',
      rows: MATERIALS.map((m) => ({
        material: m.name,
        title: m.title,
        family: m.family,
        density_g_cm3: m.densityGPerCm3,
        young_mpa: m.youngMPa,
        yield_mpa: m.yieldMPa ?? null,
        ultimate_mpa: m.ultimateMPa ?? null,
        iso_513: m.group ?? null,
        caution: m.caution?.text ?? null,
        source: m.source,
      })),
    },
    {
      name: 'cutting-forces',
      what: 'Specific cutting force: kc = kc1.1 · h^-mc, N/mm².',
      rows: Object.values(KIENZLE_ROWS).map(({ material, kc11, mc, source }) => ({ material, kc11, mc, source })),
    },
  ];
}

function ofCuts(): readonly PublishedTable[] {
  return [
    {
      name: 'milling',
      what: 'Surface speeds (m/min), chip loads (of the diameter), depths and widths (in diameters).',
      rows: Object.entries(CUTTING_ROWS).map(([material, r]) => ({
        material,
        speed_hss: r.speed.hss ?? null,
        speed_carbide: r.speed.carbide,
        chip_hss: r.chip.hss,
        chip_carbide: r.chip.carbide,
        tap_m_per_min: r.tapMPerMin,
        slot_depth: r.slotDepth,
        side_width: r.sideWidth,
        side_depth: r.sideDepth,
        source: r.source,
      })),
    },
    {
      name: 'drilling',
      what: 'Twist drills in high-speed steel: m/min, feed a turn of the diameter.',
      rows: Object.entries(DRILLING_ROWS).map(([material, { hss, feed, source }]) => ({ material, hss, feed, source })),
    },
    {
      name: 'tapping-forces',
      what: 'Cutting force of taps, N/mm².',
      rows: Object.entries(TAP_FORCE).map(([material, { kc, source }]) => ({ material, kc, source })),
    },
  ];
}

function ofShops(): readonly PublishedTable[] {
  return [
    {
      name: 'flutes',
      what: 'Flute lengths of drills and end mills, up to a diameter.',
      unit: 'mm',
      rows: [
        ...JOBBER.map(([upTo, flute]) => ({
          tool: 'jobber drill',
          up_to: upTo,
          flute,
          source: 'DIN 338, from memory',
        })),
        ...END_MILL.map(([upTo, flute]) => ({
          tool: 'end mill',
          up_to: upTo,
          flute,
          source: 'ISO 1641-1, from memory',
        })),
      ],
    },
    {
      name: 'processes',
      what: 'What processes hold: grades of ISO 286, Ra in µm.',
      rows: PROCESSES.map(({ name, grades, raUm, source }) => ({
        process: name,
        grades: grades ?? null,
        ra_um: raUm ?? null,
        source,
      })),
    },
    {
      name: 'jaw-friction',
      what: 'Friction of jaws.',
      rows: Object.entries(JAW_FRICTION).map(([jaws, { mu, source }]) => ({ jaws, mu, source })),
    },
  ];
}
