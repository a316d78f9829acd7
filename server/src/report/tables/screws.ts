/** Tables of threads, screws, pins, keys and bearings, row by row. */
import { BEARING_SOURCE, bearingNames, findBearing } from '../../tables/bearings';
import { clearanceHole, clearanceSizes } from '../../tables/clearance';
import { drillsBetween } from '../../tables/drills';
import {
  BUTTON_ROWS,
  HEX_ROWS,
  ISO_7089_ROWS,
  ISO_7092_ROWS,
  ISO_7093_ROWS,
  LENGTH_ROWS,
} from '../../tables/fasteners.data';
import { counterboreFor, countersinkFor, din74CountersinkMm, headFor, screwSizes } from '../../tables/heads';
import { ASME_KEYS, ISO_KEYS, type KeyRow } from '../../tables/keyways.data';
import { PIN_DIAMETERS_MM } from '../../tables/pins';
import { HOUSING_SOURCE, HOUSINGS } from '../../tables/seals';
import { SERIES } from '../../tables/thread-form';
import { minorLimits } from '../../tables/thread-limits';
import { THREADS } from '../../tables/threads';
import type { PublishedTable, TableRow } from './source';

const round = (mm: number) => Number(mm.toFixed(4));

function threads(): readonly TableRow[] {
  return THREADS.map((t) => {
    const { minMm, maxMm, tolerance, source } = minorLimits(t);
    return {
      designation: t.designation,
      series: SERIES[t.series].text,
      diameter_mm: t.diameterMm,
      pitch_mm: round(t.pitchMm),
      tap_drill_mm: t.tapDrillMm,
      tap_drill: t.tapDrillName ?? null,
      minor_mm: [round(minMm), round(maxMm)],
      minor_class: tolerance,
      minor_source: source,
      third_choice: t.rare ?? false,
      useful_length_mm: t.usefulMm === undefined ? null : round(t.usefulMm),
      source: t.source,
    };
  });
}

function clearances(): readonly TableRow[] {
  return clearanceSizes().flatMap((screw) =>
    (['fine', 'medium', 'coarse'] as const).flatMap((fit) => {
      const hole = clearanceHole(screw, fit);
      return hole ? [{ screw, fit, diameter_mm: hole.diameterMm, drill: hole.drill ?? null, source: hole.source }] : [];
    }),
  );
}

function recesses(): readonly TableRow[] {
  return screwSizes().flatMap((screw): readonly TableRow[] => {
    const [cap, flat] = [headFor(screw, 'cap'), headFor(screw, 'flat')];
    const [bore, sink] = [counterboreFor(screw), countersinkFor(screw)];
    const older = din74CountersinkMm(screw);
    return [
      ...(cap
        ? [{ screw, what: 'cap head', diameter_mm: cap.diameterMm, height_mm: cap.heightMm, source: cap.source }]
        : []),
      ...(flat
        ? [{ screw, what: 'flat head', diameter_mm: flat.diameterMm, height_mm: flat.heightMm, source: flat.source }]
        : []),
      ...(bore
        ? [{ screw, what: 'counterbore', diameter_mm: bore.diameterMm, depth_mm: bore.depthMm, source: bore.source }]
        : []),
      ...(sink
        ? [{ screw, what: 'countersink', diameter_mm: sink.diameterMm, angle_deg: sink.angleDeg, source: sink.source }]
        : []),
      ...(older === undefined
        ? []
        : [
            {
              screw,
              what: 'countersink, older heads',
              diameter_mm: older,
              source: 'DIN 74-1 form B, from a public table',
            },
          ]),
    ];
  });
}

function keys(rows: readonly KeyRow[], source: string): readonly TableRow[] {
  return rows.map(([over, to, width, height, depth]) => ({ over, to, width, height, depth, source }));
}

function bearings(): readonly TableRow[] {
  return bearingNames().map((designation) => {
    const { boreMm, outsideMm, widthMm } = findBearing(designation)!;
    return { designation, bore_mm: boreMm, outside_mm: outsideMm, width_mm: widthMm, source: BEARING_SOURCE };
  });
}

const washers = (standard: string, rows: typeof ISO_7089_ROWS) =>
  rows.map(([screw, inside, outside, thickness]) => ({
    standard,
    screw,
    inside_mm: inside,
    outside_mm: outside,
    thickness_mm: thickness,
    source: `${standard}, from memory`,
  }));

/** A pair of lengths; none where the standard has none of the size. */
const LENGTHS = ['ISO 4762', 'ISO 10642', 'ISO 7380-1', 'ISO 4017'] as const;

export function screwTables(): readonly PublishedTable[] {
  return [...ofHoles(), ...ofBought(), ...ofSeats()];
}

function ofHoles(): readonly PublishedTable[] {
  return [
    { name: 'threads', what: 'Threads: sizes, tap drills, limits of the hole.', rows: threads() },
    {
      name: 'drills',
      what: 'The standard series of twist drills.',
      rows: [...drillsBetween(0, 100), ...drillsBetween(0, 100, 'inch')].map((d) => ({
        drill: d.name,
        series: d.series,
        diameter_mm: d.diameterMm,
        source: d.source,
      })),
    },
    { name: 'clearance-holes', what: 'Holes that screws pass through.', rows: clearances() },
    { name: 'screw-heads', what: 'Heads of screws and what they sit in.', rows: recesses() },
  ];
}

function ofBought(): readonly PublishedTable[] {
  return [
    {
      name: 'screw-lengths',
      what: 'Shortest and longest usual length of screws.',
      unit: 'mm',
      rows: LENGTH_ROWS.flatMap(([screw, ...pairs]) =>
        pairs.flatMap((pair, i) =>
          pair ? [{ standard: LENGTHS[i]!, screw, lengths: pair, source: `${LENGTHS[i]}, from memory` }] : [],
        ),
      ),
    },
    {
      name: 'hexagons',
      what: 'Hexagon heads and nuts.',
      unit: 'mm',
      rows: HEX_ROWS.map(([screw, flats, head, nut, locking = null]) => ({
        screw,
        flats,
        head,
        nut,
        locking_nut: locking,
        source: 'ISO 4014, ISO 4017, ISO 4032, ISO 7040, from memory',
      })),
    },
    {
      name: 'button-heads',
      what: 'Button heads.',
      unit: 'mm',
      rows: BUTTON_ROWS.map(([screw, diameter, height]) => ({
        screw,
        diameter,
        height,
        source: 'ISO 7380-1, from memory',
      })),
    },
    {
      name: 'washers',
      what: 'Washers.',
      rows: [
        ...washers('ISO 7089', ISO_7089_ROWS),
        ...washers('ISO 7092', ISO_7092_ROWS),
        ...washers('ISO 7093-1', ISO_7093_ROWS),
      ],
    },
  ];
}

function ofSeats(): readonly PublishedTable[] {
  return [
    {
      name: 'pins',
      what: 'Diameters of parallel pins.',
      rows: PIN_DIAMETERS_MM.map((mm) => ({ diameter_mm: mm, source: 'ISO 8734, ISO 2338, from memory' })),
    },
    {
      name: 'keys-metric',
      what: 'Keyways for parallel keys by the shaft’s diameter.',
      unit: 'mm',
      rows: keys(ISO_KEYS, 'ISO/R 773, DIN 6885-1 high form, two public extracts that agree'),
    },
    {
      name: 'keys-inch',
      what: 'Keyways for square keys by the shaft’s diameter.',
      unit: 'in',
      rows: ASME_KEYS.flatMap((row) =>
        keys([row], row[1] <= 7 / 16 ? 'ASME B17.1 Table 1, from memory' : 'ASME B17.1 Table 1, a public extract'),
      ),
    },
    {
      name: 'seals',
      what: 'Housings of O-rings on a face that nothing moves over.',
      unit: 'mm',
      rows: HOUSINGS.map(({ sectionMm, depthMm, widthMm, cornerMm, iso }) => ({
        section: sectionMm,
        depth: depthMm,
        width: widthMm,
        corner: cornerMm,
        iso_3601_1: iso,
        source: HOUSING_SOURCE,
      })),
    },
    { name: 'bearings', what: 'Deep-groove ball bearings.', rows: bearings() },
  ];
}
