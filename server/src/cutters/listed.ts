/** Each kind of tool as lists have it: what it is called, which properties say its fields, and how an entry of it is named. */
import type { ToolKind } from '../model/tool-kinds';
import { tidy } from './numbers';
import type { Code } from './properties';

/** A property, or an angle that follows from one. */
export type Source = Code | { readonly of: Code; readonly turned: (deg: number) => number };

interface Listed {
  /** Begins the names of its entries. */
  readonly prefix: string;
  /** Words, the whole word each; of several kinds that are called so the first in this table has it. */
  readonly called: RegExp;
  /** Each field with what says it; the first that is there. In the order in which they are written. */
  readonly fields: Readonly<Record<string, readonly Source[]>>;
  /** Fields that follow the diameter in its name, where they are not what is usual. */
  readonly named?: Readonly<Record<string, string>>;
  /** What the words say beyond the kind: a ball’s radius, a tap that forms. */
  readonly said?: readonly (readonly [words: RegExp, field: string, text: (diameter: string) => string])[];
}

/** Twice the angle between edge and axis; from a face the rest of a half turn. ISO 13399: SIG, KAPR. */
const twice: Source = { of: 'KAPR', turned: (deg) => 2 * deg };
const fromFace: Source = { of: 'KAPR', turned: (deg) => 180 - 2 * deg };
const leaning: Source = { of: 'KAPR', turned: (deg) => (deg > 90 ? 180 - deg : deg) };

const DIAMETER: readonly Source[] = ['DC', 'DCX'];
const FLUTES: readonly Source[] = ['ZEFP', 'NOF', 'ZEFF'];
const LENGTH: readonly Source[] = ['APMX', 'LCF'];
const REACH: readonly Source[] = ['LU', 'LUX', 'LH'];
const SHANK: readonly Source[] = ['DCONMS', 'DCON', 'DMM'];
const HEAD = { neck: ['DN'], reach: REACH, flutes: FLUTES, shank: SHANK } as const;

/** Narrower words before wider ones: a flat drill is a drill too. */
export const LISTED: Readonly<Record<ToolKind, Listed>> = {
  'slitting-saw': {
    prefix: 'saw',
    called: /slitting[ -]?saw|\bsaw\b|sägeblatt|kreissäge/i,
    fields: { diameter: ['DC', 'DCX'], thickness: ['CW', 'APMX'], flange: ['DHUB'], flutes: FLUTES, shank: SHANK },
    named: { thickness: 'x' },
  },
  'tee-cutter': {
    prefix: 'tee',
    called: /\bt[ -]?slot|\btee\b|woodruff|keyseat|t-nut|nutenfräser.*t\b|grooving (?:mill|cutter)/i,
    fields: { diameter: DIAMETER, thickness: ['CW', 'APMX'], ...HEAD },
    named: { thickness: 'x' },
  },
  'dovetail-cutter': {
    prefix: 'dt',
    called: /dovetail|schwalbenschwanz/i,
    fields: { diameter: ['DCX', 'DC'], thickness: ['APMX', 'CW'], angle: [leaning], ...HEAD },
  },
  'ball-undercutter': {
    prefix: 'bu',
    called: /lollipop|undercut|spherical (?:mill|cutter)|kugelfräser mit hals/i,
    fields: { diameter: DIAMETER, ...HEAD },
  },
  'corner-rounder': {
    prefix: 'cr',
    called: /corner[ -]?round|rounding|radius (?:mill|cutter)|viertelkreis/i,
    fields: { diameter: ['DCX', 'DC'], 'corner-radius': ['RE'], flutes: FLUTES, reach: REACH, shank: SHANK },
  },
  engraver: {
    prefix: 'eng',
    called: /engrav|gravier/i,
    fields: {
      diameter: ['DC', 'DCN'],
      angle: ['SIG', twice],
      flutes: FLUTES,
      'flute-length': LENGTH,
      reach: REACH,
      shank: SHANK,
    },
  },
  'face-mill': {
    prefix: 'fm',
    called: /face[ -]?mill|shell mill|planfräser|facing/i,
    fields: {
      diameter: ['DCX', 'DC'],
      flutes: FLUTES,
      'flute-length': ['APMX'],
      reach: ['LU', 'LF'],
      shank: SHANK,
      'corner-radius': ['RE'],
    },
  },
  'chamfer-mill': {
    prefix: 'cm',
    called: /chamfer[ -]?(?:mill|cutter|tool)|deburring (?:mill|cutter)|fas(?:en)?fräser/i,
    fields: { diameter: ['DCX', 'DC'], angle: ['SIG', fromFace], tip: ['DCN'], reach: REACH },
  },
  countersink: {
    prefix: 'cs',
    called: /countersink|kegelsenker/i,
    fields: { diameter: ['DCX', 'DC'], angle: ['SIG', twice], tip: ['DCN'], reach: REACH },
  },
  'counterbore-cutter': {
    prefix: 'cb',
    called: /counterbor|flachsenker|spotfac/i,
    fields: { diameter: DIAMETER, pilot: ['PHD'], reach: REACH },
  },
  'boring-head': {
    prefix: 'bh',
    called: /boring (?:head|bar|tool)|ausdreh/i,
    fields: { diameter: ['DCN', 'DC'], largest: ['DCX'], reach: ['LU', 'LUX', 'LF'] },
    named: { largest: '-' },
  },
  reamer: {
    prefix: 'rm',
    called: /ream(?:er|ing)|reibahle/i,
    fields: { diameter: DIAMETER, fit: ['TCHA', 'TCDC'], reach: [...REACH, 'LCF'] },
    named: { fit: '-' },
  },
  'spot-drill': {
    prefix: 'sd',
    called: /spot(?:ting)?[ -]?drill|nc[ -]?anbohrer|anbohrer/i,
    fields: { diameter: DIAMETER, 'flute-length': ['LCF', 'APMX', 'LU'], point: ['SIG', twice] },
  },
  'flat-drill': {
    prefix: 'fd',
    called: /flat(?:[ -]bottom)?[ -]?drill|180 ?° drill|flachbohrer/i,
    fields: { diameter: DIAMETER, 'flute-length': ['LCF', 'APMX', 'LU'] },
  },
  'thread-mill': {
    prefix: 'tm',
    called: /thread(?:ing)?[ -]?mill|gewindefräser/i,
    fields: { diameter: DIAMETER, pitch: ['TP'], flutes: FLUTES, 'flute-length': ['APMX'], reach: REACH, shank: SHANK },
    named: { pitch: '-p', angle: '-a', tapered: '-taper-', cuts: '-' },
    // What is cut with it turns on these: of other flanks than 60° no list may become a cutter of 60°.
    said: [
      [/whitworth|\bbsp[pt]?\b|55 ?°|\bG ?\d+\/\d/i, 'angle', () => '55'],
      [/trapez|30 ?°|\btr ?\d/i, 'angle', () => '30'],
      [/\bnptf?\b|\bbspt\b|\bRc ?\d/i, 'tapered', () => 'yes'],
      [/external|outside|außen|aussen/i, 'cuts', () => 'outside'],
    ],
  },
  tap: {
    prefix: 'tap',
    called: /\btaps?\b|tapping|gewindebohrer|gewindeformer|form(?:ing)? tap/i,
    fields: { thread: ['TDZ'], chamfer: ['THCHT'], reach: REACH },
    named: { chamfer: '-', forming: '-forming-' },
    said: [[/form(?:ing)? tap|gewindeformer/i, 'forming', () => 'yes']],
  },
  'end-mill': {
    prefix: 'em',
    called:
      /end[ -]?mill|slot (?:drill|mill)|ball[ -]?nose|bull[ -]?nose|rougher|roughing|ripper|schruppfräser|indexable (?:mill|cutter)|router bit|schaftfräser|bohrnutenfräser|vollhartmetallfräser|kugelfräser|\bmill(?:ing)?\b|fräser/i,
    fields: {
      diameter: DIAMETER,
      flutes: FLUTES,
      'flute-length': LENGTH,
      reach: REACH,
      shank: SHANK,
      'corner-radius': ['RE'],
      helix: ['FHA'],
      'centre-cutting': ['CCC'],
      ramp: ['RMPX'],
    },
    named: { 'corner-radius': '-r', roughing: '-roughing' },
    said: [
      [/rougher|roughing|ripper|schrupp/i, 'roughing', () => 'yes'],
      [/insert|indexable|wendeplatten/i, 'inserts', () => 'yes'],
      [
        /\bball\b|kugelfräser/i,
        'corner-radius',
        (diameter) => diameter.replace(/^[\d.]+/, (n) => String(tidy(Number(n) / 2))),
      ],
    ],
  },
  drill: {
    prefix: 'dr',
    called: /drill|bohrer/i,
    fields: { diameter: DIAMETER, 'flute-length': ['LCF', 'LU', 'APMX'], point: ['SIG', twice] },
  },
};

/** Cutters that no kind of ours describes: a guess would be checked for what it is not. */
export const OTHERS: readonly (readonly [RegExp, string])[] = [
  [/cent(?:re|er)[ -]?drill|zentrierbohrer/i, 'a centre drill has a pilot and a cone, and no kind here is like that'],
  [/step(?:ped)?[ -]?drill|stufenbohrer/i, 'a step drill makes two diameters at once, and no kind here does'],
  [/taper(?:ed)? (?:end )?mill|konisch/i, 'a tapered mill leaves a sloped wall, and no kind here does'],
  [
    /turning|lathe|parting|threading insert|drehmeißel|wendeplatte|\binsert$/i,
    'it is for a lathe, or an insert without its holder',
  ],
  [/\b(?:collet|chuck|arbor|holder|adapter|spannzange|futter|aufnahme)s?\b/i, 'it holds cutters and cuts nothing'],
];
