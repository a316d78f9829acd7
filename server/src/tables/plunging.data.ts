/**
 * How holes are made: speeds and feeds of twist drills by material, of reamers, seats and boring heads, and what turning
 * a tap takes. Rows only; each says where it is from.
 */
import type { MaterialFamily } from './materials.data';

type Range = readonly [low: number, high: number];

const NAVY =
  'US Navy training course 14345, recommended cutting speeds for high-speed steel twist drills (read on enginemechanics.tpub.com)';
const PRACTICE = 'common practice, from memory';

export interface DrillingRow {
  /** Surface speed of twist drills in high-speed steel, m/min. */
  readonly hss: Range;
  /** Feed a turn as a share of the diameter, mm for each mm. */
  readonly feed: Range;
  readonly source: string;
}

export type DrillingKey = MaterialFamily | 'mild-steel' | 'strong-steel' | 'brass' | 'bronze';

const FPM = 0.3048;
const fpm = (low: number, high: number): Range => [low * FPM, high * FPM];

export const DRILLING_ROWS: Readonly<Record<DrillingKey, DrillingRow>> = {
  aluminium: row(fpm(200, 300), [0.015, 0.025], NAVY),
  'mild-steel': row(fpm(80, 110), [0.012, 0.02], `${NAVY}: low carbon steel`),
  steel: row(fpm(70, 80), [0.012, 0.02], `${NAVY}: medium carbon steel`),
  'strong-steel': row(fpm(50, 70), [0.01, 0.016], `${NAVY}: alloy steel`),
  stainless: row(
    fpm(30, 55),
    // Fed gently it rubs, and hardens under the drill.
    [0.014, 0.022],
    `${NAVY}: 30 to 40 ft/min; a reamer maker’s table of drilling speeds: 304 annealed 55 ft/min; feed: common practice, from memory`,
  ),
  'cast-iron': row(fpm(70, 150), [0.015, 0.025], NAVY),
  titanium: row([6, 10], [0.006, 0.012], PRACTICE),
  copper: row([20, 45], [0.015, 0.025], PRACTICE),
  brass: row(fpm(200, 300), [0.015, 0.025], NAVY),
  bronze: row(
    fpm(70, 150),
    [0.012, 0.02],
    'operating instructions of a drill press: high tensile bronze 70 to 150 ft/min',
  ),
  magnesium: row(fpm(250, 400), [0.015, 0.03], 'metal drilling reference guide: magnesium 250 to 400 ft/min'),
  plastic: row(fpm(100, 300), [0.012, 0.025], 'metal drilling reference guide: plastics 100 to 300 ft/min'),
  composite: row([12, 25], [0.006, 0.012], PRACTICE),
};

function row(hss: Range, feed: Range, source: string): DrillingRow {
  return { hss, feed, source };
}

/** Carbide drills run at so much of the milling range: the chips must come out. */
export const CARBIDE_DRILLS = { share: 0.7, source: 'common practice, no source' } as const;

/** A drill loses nothing but time where it turns slower than its range: down to so much of its low end. */
export const SLOW_DRILL = { share: 0.5, source: 'common practice, no source' } as const;

/** However large a drill, it is fed no more a turn: the course’s last line, drills over an inch, 0.015 to 0.025 in. */
export const MOST_DRILL_FEED = { mm: 0.63, source: `${NAVY}, feeds by diameter` } as const;

/** Steels up to this strength are drilled as low carbon steel. */
export const MILD_STEEL_MPA = {
  value: 550,
  source: 'common practice, no source: S235, S355 and drawn 1018 lie below, C45 above',
} as const;

/**
 * Plunges that are not a twist drill's: `of` what their speed is a share, feed a turn as a share of the diameter and at
 * most, and in how many cuts they come to the size.
 */
export const PLUNGES = {
  ream: {
    of: 'drill',
    speedShare: 0.6,
    // Of the drill's own feed: a reamer that is fed too gently rubs and cuts over size.
    drillFeeds: 2.25,
    mostFeedMm: 0.8,
    cuts: 1,
    source:
      'speed: TM 1-420 (US War Department 1940s, read on digital.library.unt.edu) has half of the drill’s, a reamer maker’s table 0.6 to 0.67; feed two to three times the drill’s: common practice, from memory',
  },
  counterbore: {
    of: 'mill',
    speedShare: 0.4,
    feedShare: 0.012,
    mostFeedMm: 0.15,
    cuts: 1,
    source: 'common practice, from memory',
  },
  countersink: {
    of: 'mill',
    speedShare: 0.4,
    feedShare: 0.012,
    mostFeedMm: 0.12,
    cuts: 1,
    source: 'common practice, from memory',
  },
  bore: {
    // One edge on a long bar sings at what carbide would bear: it is turned as high-speed steel is milled.
    of: 'hss-mill',
    speedShare: 1,
    feedShare: 0.004,
    mostFeedMm: 0.08,
    cuts: 5,
    source: 'common practice, from memory: 300 to 1,000 rpm, four to six cuts, each measured before the next',
  },
} as const;

/** A boring head for which the shop says nothing turns no faster: it is heavy, out of balance, and throws. */
export const BORING_HEAD_RPM = {
  value: 1000,
  source: 'common practice, no source: 300 to 1,000 rpm; makers mark 1,000 to 1,500 for a 50 mm head, from memory',
} as const;

/**
 * Specific cutting force of taps, N/mm², for M = kc · P² · D / 8000 N·m: as a tap maker prints formula and table together.
 * Its chips are so thin, and rub so, that it is not Kienzle's of a chip.
 */
const TAP_TABLE =
  'a tap maker’s technical page, torque M = kc · P² · D / 8000 with its own table of kc (read on lubero.de)';
export const TAP_FORCE: Readonly<Record<DrillingKey, { readonly kc: number; readonly source: string }>> = {
  aluminium: { kc: 800, source: `${TAP_TABLE}: long-chipping aluminium` },
  'mild-steel': { kc: 2300, source: `${TAP_TABLE}: unalloyed steel` },
  steel: { kc: 2500, source: `${TAP_TABLE}: structural steel, 500 to 950 N/mm²` },
  'strong-steel': { kc: 2600, source: `${TAP_TABLE}: heat-treated steel of medium strength` },
  stainless: { kc: 3200, source: `${TAP_TABLE}: austenitic stainless` },
  'cast-iron': { kc: 1250, source: `${TAP_TABLE}: grey cast iron` },
  titanium: { kc: 2600, source: 'taken as heat-treated steel: no source' },
  copper: { kc: 1100, source: `${TAP_TABLE}: long-chipping copper alloys` },
  brass: { kc: 720, source: `${TAP_TABLE}: short-chipping copper alloys` },
  bronze: { kc: 1100, source: `${TAP_TABLE}: long-chipping copper alloys` },
  magnesium: { kc: 680, source: 'taken as short-chipping aluminium: no source' },
  plastic: { kc: 200, source: 'from memory, low confidence' },
  composite: { kc: 680, source: 'taken as short-chipping aluminium: no source' },
};

/** A tap that forms its thread is harder to turn than one that cuts. */
export const FORM_TAP_TORQUE = {
  factor: 2.5,
  source: 'a tap maker’s catalogue: two to three times that of cutting taps (read on docs.steelcam.org)',
} as const;
