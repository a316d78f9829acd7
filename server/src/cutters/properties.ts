/**
 * Properties of cutters by the codes of ISO 13399 (its preferred symbols, from memory; DC, DCX, APMX, OAL, DMM, LUX, LPR, LF,
 * SIG, KAPR and RE are so in Part 4 of MTConnect too, which is open), and what a list made by hand calls them.
 */

type Quantity = 'length' | 'angle' | 'count' | 'speed' | 'words';

interface Property {
  readonly is: Quantity;
  /** As columns are headed: small letters, without units. The trade's words, English and German. */
  readonly called: readonly string[];
}

const length = (...called: string[]): Property => ({ is: 'length', called });
const angle = (...called: string[]): Property => ({ is: 'angle', called });
const count = (...called: string[]): Property => ({ is: 'count', called });
const words = (...called: string[]): Property => ({ is: 'words', called });

const PROPERTIES = {
  /** Cutting diameter, its least and its largest. */
  DC: length(
    'diameter',
    'dia',
    'd',
    'd1',
    'ø',
    'cutting diameter',
    'cutter diameter',
    'durchmesser',
    'nominal diameter',
  ),
  DCN: length('smallest diameter', 'minimum diameter', 'least bore', 'smallest bore'),
  DCX: length('largest diameter', 'maximum diameter', 'largest bore', 'largest', 'outside diameter'),
  /** Largest depth of cut; length of the flutes that carry chips. */
  APMX: length(
    'length of cut',
    'cutting length',
    'cut length',
    'loc',
    'depth of cut',
    'schneidenlänge',
    'cutting depth',
  ),
  LCF: length('flute length', 'length of flutes', 'flute', 'spannutlänge', 'nutlänge'),
  OAL: length('overall length', 'total length', 'length overall', 'length', 'gesamtlänge', 'länge'),
  LF: length('functional length'),
  LU: length('usable length', 'reach', 'neck length', 'length below shank', 'nutzlänge'),
  LUX: length('largest usable length'),
  LH: length('head length'),
  LPR: length('protruding length'),
  DN: length('neck diameter', 'neck', 'halsdurchmesser', 'hals'),
  /** Of the shank, or where it connects. */
  DMM: length('shank', 'shank diameter', 'shaft', 'schaft', 'schaftdurchmesser'),
  DCON: length('connection diameter'),
  DCONMS: length('connection diameter machine side'),
  RE: length('corner radius', 'radius', 'insert radius', 'nose radius', 'eckenradius'),
  CW: length('cutting width', 'width', 'thickness', 'breite', 'dicke'),
  DHUB: length('hub', 'hub diameter', 'flange', 'flansch'),
  PHD: length('pilot', 'pilot diameter', 'zapfen'),
  ZEFP: count(
    'flutes',
    'number of flutes',
    'teeth',
    'number of teeth',
    'z',
    'edges',
    'cutting edges',
    'schneiden',
    'zähne',
  ),
  NOF: count('flute count'),
  ZEFF: count('effective teeth', 'face edges'),
  SIG: angle('point angle', 'point', 'tip angle', 'included angle', 'angle', 'spitzenwinkel', 'winkel'),
  KAPR: angle('cutting edge angle', 'approach angle', 'lead angle', 'anstellwinkel'),
  /** The steepest ramp. */
  RMPX: angle('ramp', 'ramp angle', 'ramping angle', 'largest ramp angle', 'eintauchwinkel'),
  FHA: angle('helix', 'helix angle', 'drallwinkel', 'drall'),
  RPMX: { is: 'speed', called: ['largest speed', 'maximum speed', 'max rpm', 'rpm'] } as Property,
  TDZ: words('thread', 'thread size', 'gewinde', 'thread diameter size'),
  TP: length('pitch', 'thread pitch', 'steigung'),
  /** How the first threads of a tap are ground away. */
  THCHT: words('chamfer', 'tap chamfer', 'chamfer form', 'anschnitt'),
  TCHA: words('fit', 'hole tolerance', 'passung', 'hole class'),
  TCDC: words('diameter tolerance', 'tolerance', 'toleranz'),
  CCC: words('centre cutting', 'center cutting'),
  BMC: words('material', 'tool material', 'cutter material', 'cutting material', 'schneidstoff'),
} as const satisfies Record<string, Property>;

export type Code = keyof typeof PROPERTIES;

export function isCode(word: string): word is Code {
  return Object.hasOwn(PROPERTIES, word);
}

export function quantityOf(code: Code): Quantity {
  return PROPERTIES[code].is;
}

const BY_WORD: ReadonlyMap<string, Code> = new Map(
  (Object.keys(PROPERTIES) as Code[]).flatMap((code) => PROPERTIES[code].called.map((word) => [word, code] as const)),
);

/** What a column is headed with: a code in any case, or words. */
export function codeOfWords(words: string): Code | undefined {
  const upper = words.toUpperCase();
  if (isCode(upper)) return upper;
  return BY_WORD.get(
    words
      .toLowerCase()
      .replace(/^(?:no\.?|nr\.?|number) of (?:flutes|teeth|edges)$/, 'flutes')
      .replace(/[._-]+/g, ' ')
      .replace(/\s+/g, ' ')
      .trim(),
  );
}
