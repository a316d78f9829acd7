/**
 * Dimensions as they stand on drawings and in notes, said as this format says them: `Ø22H7`, `4x M5`, `R5`, `4,5`,
 * `0.5 x 45°`, `THRU`. Only what this format does not read is looked at. Drawing marks by ISO 129-1 and ASME Y14.5; the rest
 * is common practice, no source.
 */
import { clearanceHole } from '../../tables/clearance';
import { drillByName } from '../../tables/drills';
import { MM_PER_INCH } from '../../tables/units';
import { parseDimension } from '../../text/dimension';

interface PlainDimension {
  /** What it may mean, each as it is written here. More than one: the text does not say which. */
  readonly texts: readonly string[];
  /** What in the text is written otherwise here. */
  readonly why: string;
  /** How many it says there are. */
  readonly count?: number;
  /** It gives a radius where the field may want a diameter. */
  readonly radius?: true;
}

const COUNT = /^(\d{1,3})\s*(?:[xX×]|off|pcs|pl(?:aces|cs)?\.?)\s*(?=[øØ⌀∅RrDd])/;
const DIAMETER_SIGN = /^(?:[øØ⌀∅]|dia(?:m(?:eter)?)?\.?|d(?=\s*[=\d]))\s*=?\s*/i;
const DIAMETER_AFTER = /\s*(?:dia(?:m(?:eter)?)?\.?|[øØ⌀∅])$/i;
const CHAMFER_SIGN = /^c(?=[.\d])\s*/i;
const RADIUS_SIGN = /^(?:r(?=[\s=.\d])|rad(?:ius)?\.?)\s*=?\s*/i;
const DEPTH_SIGN = /^(?:[↧⌴⌵]|t\s*=|dp\.?|deep)\s*/i;
const AFTERWORDS = /\s*(?:deep|dp\.?|depth|tief|blind|wide|long|high|thk\.?|thick|typ\.?|nom(?:inal)?\.?)$/i;
const BY_ANGLE = /^(.*?\S)\s*[xX×*]\s*(\d+(?:[.,]\d+)?)\s*(?:°|deg)?$/;
export const THROUGH =
  /^(?:thro?u?g?ht?|thru|throughout|throughall|through[- ]?all|thru[- ]?all|through[- ]?hole|full|full[- ]depth|all|all the way|complete|up[- ]to[- ]next|inf(?:inite)?|durch|durchgehend|durchgang|ganz|traversant|d[ée]bouchant|pasante|passante)$/i;
const FRACTIONS: Readonly<Record<string, string>> = {
  '½': '1/2',
  '¼': '1/4',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};
const COMMA = /(\d),(\d+)/g;

/** What such a text means; undefined where it is read as it is, or means nothing known. `through`: the field takes that word. */
export function plainDimension(
  source: string,
  takes: { readonly through: boolean; readonly angle: boolean },
): PlainDimension | undefined {
  const text = source.trim();
  if (text.length > 60) return undefined;
  if (takes.through && text !== 'through' && THROUGH.test(text))
    return { texts: ['through'], why: 'To the far side is `through`.' };
  if (parseDimension(text).ok && !/[²³]/.test(text)) return undefined;
  const unclear = twoWays(text);
  if (unclear) return unclear;
  const whys: string[] = [];
  let rest = text;
  const cut = (pattern: RegExp, why: string): RegExpExecArray | undefined => {
    const found = pattern.exec(rest);
    if (!found || found[0].length === rest.length) return undefined;
    rest = (rest.slice(0, found.index) + rest.slice(found.index + found[0].length)).trim();
    if (why) whys.push(why);
    return found;
  };
  const angle = takes.angle ? byAngle(rest) : undefined;
  if (angle) {
    rest = angle.width;
    whys.push(
      angle.deg === '45'
        ? 'A chamfer is 45° where no `angle` is written.'
        : `The angle is a field of its own, \`angle: ${angle.deg}\`.`,
    );
  }
  const count = cut(COUNT, '');
  const round =
    cut(DIAMETER_SIGN, 'The key says that it is a diameter.') ??
    cut(DIAMETER_AFTER, 'The key says that it is a diameter.');
  const radius = !round && cut(RADIUS_SIGN, '');
  if (takes.angle) cut(CHAMFER_SIGN, 'A chamfer is 45° where no `angle` is written.');
  cut(DEPTH_SIGN, 'The key says what it measures.');
  cut(AFTERWORDS, 'The key says what it measures.');
  rest = rest.replace(/(\d*)\s*([½¼¾⅛⅜⅝⅞])/g, (_, whole, sign) => `${whole ? `${whole} ` : ''}${FRACTIONS[sign]}`);
  rest = rest.replace(
    /^(\d+(?:\.\d+)?)\s*(?:thou|mils?)$/i,
    (_, thou) => `${Number((Number(thou) / 1000).toFixed(6))} in`,
  );
  rest = rest.replace(/''/g, '"').replace(/\s*(mm|in)\.$/, ' $1');
  const texts = withoutCommas(rest);
  if (texts[0] !== rest) whys.push('Decimals are written with a point.');
  if (texts[0] === text || !texts.every((t) => parseDimension(t).ok)) return undefined;
  return {
    texts,
    why: [...new Set(whys)].join(' '),
    ...(count && { count: Number(count[1]) }),
    ...(radius && { radius: true }),
  };
}

const NUMBER_DRILL = /^(?:#|no\.?\s*|number\s+)(\d{1,2})(?:\s+drill)?$/i;
const LETTER_DRILL = /^(?:letter\s+([a-z])|([A-Z])(?:\s+drill)?)$/;

/** A diameter said by a drill's number or letter (ASME B94.11M): `#7`, `F`. A screw's number may also be meant: the hole for it. */
export function drillSize(source: string): PlainDimension | undefined {
  const text = source.trim();
  const [, number] = NUMBER_DRILL.exec(text) ?? [];
  const [, small, capital] = LETTER_DRILL.exec(text) ?? [];
  const name = number === undefined ? (small ?? capital)?.toUpperCase() : `#${Number(number)}`;
  const drill = name === undefined ? undefined : drillByName(name);
  if (!drill) return undefined;
  const inches = (mm: number) => `${Number((mm / MM_PER_INCH).toFixed(4))} in`;
  const screw = number === undefined ? undefined : clearanceHole(name!);
  return {
    texts: [inches(drill.diameterMm), ...(screw ? [inches(screw.diameterMm)] : [])],
    why: screw
      ? `It can be drill ${name}, or the clearance hole of a ${name} screw.`
      : `A drill is written by its diameter: ${name} is ${inches(drill.diameterMm)}.`,
  };
}

/** Limits apart from each other, or a sum; a whole number and a fraction, or a subtraction. */
function twoWays(text: string): PlainDimension | undefined {
  const [, value, up, down] = /^(\S+)\s+\+\s*([\d.]+)\s+-\s*([\d.]+)$/.exec(text) ?? [];
  const [, whole, part] = /^(\d+)\s*-\s*(\d+\/\d+\s*(?:"|in|mm)?)$/.exec(text) ?? [];
  const texts =
    up !== undefined
      ? [`${value} +${up}/-${down}`, `${value} + ${up} - ${down}`]
      : whole !== undefined
        ? [`${whole} ${part}`, `${whole} - ${part}`]
        : [];
  if (texts.length === 0 || !texts.every((t) => parseDimension(t).ok)) return undefined;
  return {
    texts,
    why: up === undefined ? 'It can be a mixed number or a subtraction.' : 'It can be a tolerance or a sum.',
  };
}

/** `4,5` is 4.5; `12,500` may also be twelve thousand five hundred. */
function withoutCommas(text: string): readonly string[] {
  const point = text.replace(COMMA, '$1.$2');
  if (point === text || /\(/.test(text)) return [text];
  const only = /^\d{1,3},\d{3}(?!\d)/.test(text) && !/^0,/.test(text);
  return only ? [point, text.replace(COMMA, '$1$2')] : [point];
}

function byAngle(text: string): { readonly width: string; readonly deg: string } | undefined {
  const found = BY_ANGLE.exec(text);
  if (!found) return undefined;
  const deg = found[2]!.replace(',', '.');
  // `20 x 10` is no chamfer at 10°: angles are said with their sign, or are the usual ones.
  const sure = /(?:°|deg)\s*$/.test(text) || deg === '45';
  return sure && Number(deg) > 0 && Number(deg) < 90 ? { width: found[1]!.trim(), deg } : undefined;
}
