/** Pipe threads (ISO 228-1, ISO 7-1, ASME B1.20.1), trapezoidal threads (ISO 2904), holes of wire thread inserts (DIN 8140-2). */
import {
  G_SOURCE,
  INSERT_ROWS,
  INSERT_SOURCE,
  NPT_ROWS,
  NPT_SOURCE,
  PIPE_LENGTH_MM,
  PIPE_ROWS,
  R_SOURCE,
  TR_SOURCE,
  TR_WIDER_MM,
  TRAPEZOIDAL_ROWS,
} from './special-threads.data';
import type { Thread } from './thread-form';
import { MM_PER_INCH } from './units';

/** What a cone of 1 in 16 is narrower after a length. */
const TAPER = 1 / 16;

/** Threads beside the screw threads; `metric` are those that inserts carry. */
export function specialThreads(metric: readonly Thread[]): readonly Thread[] {
  return [...parallel(), ...tapered(), ...americanTaper(), ...trapezoidal(), ...inserts(metric)];
}

function parallel(): readonly Thread[] {
  return (['G', 'Rp'] as const).flatMap((series) =>
    PIPE_ROWS.flatMap(([size, diameterMm, perInch, g, rp]): readonly Thread[] => {
      const tapDrillMm = series === 'G' ? g : rp;
      const usefulMm = PIPE_LENGTH_MM[size]?.[series === 'G' ? 0 : 1];
      if (tapDrillMm === null) return [];
      return [
        {
          designation: `${series}${size}`,
          series,
          diameterMm,
          pitchMm: MM_PER_INCH / perInch,
          tapDrillMm,
          ...(typeof usefulMm === 'number' && { usefulMm }),
          source: series === 'G' ? G_SOURCE : R_SOURCE,
        },
      ];
    }),
  );
}

function tapered(): readonly Thread[] {
  return PIPE_ROWS.flatMap(([size, diameterMm, perInch, , , rc]): readonly Thread[] => {
    const usefulMm = PIPE_LENGTH_MM[size]?.[1];
    if (rc === null || typeof usefulMm !== 'number') return [];
    const pitchMm = MM_PER_INCH / perInch;
    // The table's diameters are those at the gauge plane, which is the mouth of the hole.
    const mouthMm = diameterMm - 2 * 0.640327 * pitchMm;
    return [
      {
        designation: `Rc${size}`,
        series: 'Rc',
        diameterMm,
        pitchMm,
        tapDrillMm: rc,
        usefulMm,
        bore: [mouthMm - usefulMm * TAPER, mouthMm],
        source: R_SOURCE,
      },
    ];
  });
}

/** By the standard's formulas: E0 = D − (0.05 D + 1.1) p, E1 = E0 + L1 / 16, h = 0.8 p, and three turns for wrenching. */
function americanTaper(): readonly Thread[] {
  return NPT_ROWS.map(([size, outside, perInch, handTight, tapDrillName, drill]): Thread => {
    const p = 1 / perInch;
    const least = outside - (0.05 * outside + 1.1) * p - 0.8 * p;
    const most = least + handTight * TAPER;
    return {
      designation: `${size}-${perInch} NPT`,
      series: 'NPT',
      diameterMm: outside * MM_PER_INCH,
      pitchMm: p * MM_PER_INCH,
      tapDrillMm: Number((drill * MM_PER_INCH).toFixed(4)),
      tapDrillName,
      usefulMm: (handTight + 3 * p) * MM_PER_INCH,
      bore: [least * MM_PER_INCH, most * MM_PER_INCH],
      source: NPT_SOURCE,
    };
  });
}

function trapezoidal(): readonly Thread[] {
  return TRAPEZOIDAL_ROWS.flatMap(([diameterMm, pitches]) =>
    pitches.map((pitchMm): Thread => {
      const widerMm = TR_WIDER_MM.find(([upTo]) => pitchMm <= upTo)![1];
      return {
        designation: `Tr${diameterMm}x${pitchMm}`,
        series: 'Tr',
        diameterMm,
        pitchMm,
        tapDrillMm: Number((diameterMm - pitchMm + widerMm).toFixed(3)),
        source: TR_SOURCE,
      };
    }),
  );
}

function inserts(metric: readonly Thread[]): readonly Thread[] {
  return INSERT_ROWS.map(([name, tapDrillMm]): Thread => {
    const screw = metric.find((t) => t.designation === name)!;
    return {
      designation: `EG ${name}`,
      series: 'EG',
      diameterMm: Number((screw.diameterMm + 1.299038 * screw.pitchMm).toFixed(4)),
      pitchMm: screw.pitchMm,
      tapDrillMm,
      screw,
      source: INSERT_SOURCE,
    };
  });
}
