/** From a row of a list to the fields of a tool in a shop: what its properties say, in the shop's words; nothing is made up. */

import { shapeOf } from '../model/schema/shape';
import { TOOL_KINDS_BY_NAME, type ToolKind } from '../model/tool-kinds';
import { findThread } from '../tables/thread-names';
import { LISTED, OTHERS, type Source } from './listed';
import { tidy } from './numbers';
import type { Code } from './properties';
import { cited, type Row, type Value } from './row';

export interface Drafted {
  readonly kind: ToolKind;
  /** Kind first; as they are written. */
  readonly fields: Readonly<Record<string, string>>;
  /** Fields that a tool of this kind needs and the row does not say. */
  readonly lacks: readonly string[];
  /** What was concluded or could not be used. */
  readonly told: readonly string[];
}

/** A string says why the row is no tool of ours. */
export function drafted(row: Row, units: 'mm' | 'in'): Drafted | string {
  const kind = kindOf(row);
  if (typeof kind === 'string') return kind;
  const { fields: known, said = [] } = LISTED[kind.is];
  const told = [...row.odd, ...(kind.concluded ? [`it is taken for \`${kind.is}\` by its properties`] : [])];
  const fields: Record<string, string> = { kind: kind.is };
  for (const [field, sources] of Object.entries({ ...known, material: ['BMC'], 'largest-speed': ['RPMX'] } as const)) {
    const text = firstOf(sources, row, units, told);
    if (text !== undefined) fields[field] = text;
  }
  const { diameter } = fields;
  for (const [words, field, text] of said)
    if (fields[field] === undefined && row.words.some((w) => words.test(w))) fields[field] = text(diameter ?? '0');
  if (row.id !== undefined && row.id.trim() !== '') fields.note = row.id.trim().slice(0, MOST_NOTE);
  const shape = shapeOf(TOOL_KINDS_BY_NAME[kind.is].schema);
  const needed = shape.type === 'map' ? [...shape.keys].flatMap(([key, { required }]) => (required ? [key] : [])) : [];
  return { kind: kind.is, fields, lacks: needed.filter((key) => fields[key] === undefined), told };
}

const MOST_NOTE = 60;

/** By what is said of it; else by properties that only one kind of ours has together. */
function kindOf({ words, values }: Row): { readonly is: ToolKind; readonly concluded?: true } | string {
  for (const text of words) {
    const other = OTHERS.find(([pattern]) => pattern.test(text));
    if (other) return other[1];
    const found = (Object.keys(LISTED) as ToolKind[]).find((kind) => LISTED[kind].called.test(text));
    if (found) return { is: found };
  }
  const is = byProperties(values);
  return is
    ? { is, concluded: true }
    : 'its kind is not said: write a word like `drill` or `end-mill` in a column `kind`';
}

function byProperties(values: Row['values']): ToolKind | undefined {
  const has = (...codes: Code[]) => codes.some((code) => values.has(code));
  const n = (code: Code) => {
    const value = values.get(code);
    return value && 'n' in value ? value.n : Number.NaN;
  };
  if (has('TDZ') && has('THCHT')) return 'tap';
  if (!has('DC', 'DCX') || has('TDZ', 'CW', 'DHUB', 'PHD', 'TCHA')) return undefined;
  const long = n('LCF') >= 2 * n('DC') || n('LU') >= 2 * n('DC');
  if (n('SIG') >= 110 && n('SIG') <= 150 && long && !has('RE', 'APMX')) return 'drill';
  const square = !has('KAPR') || Math.abs(n('KAPR') - 90) < 0.5;
  return has('APMX') && has('ZEFP', 'NOF') && has('DMM', 'DCON', 'DCONMS') && square && !has('SIG', 'DN')
    ? 'end-mill'
    : undefined;
}

function firstOf(sources: readonly Source[], row: Row, units: 'mm' | 'in', told: string[]): string | undefined {
  for (const source of sources) {
    const code = typeof source === 'string' ? source : source.of;
    const value = row.values.get(code);
    if (!value) continue;
    if ('text' in value) {
      const text = WORDED[code]?.(value.text, row);
      if (text !== undefined) return text;
      told.push(`${code} ${cited(value.text)} says nothing that a tool here has a word for`);
    } else {
      if (value.n >= 0)
        return numberText(typeof source === 'string' ? value : { ...value, n: source.turned(value.n) }, units);
      told.push(`${code} is ${value.n}, and cannot be less than 0`);
    }
  }
  return undefined;
}

function numberText({ n, unit }: Extract<Value, { readonly n: number }>, units: 'mm' | 'in'): string {
  const plain = String(tidy(n)).replace(/^(-?\d+(?:\.\d+)?)e[+-]\d+$/, () => n.toFixed(9).replace(/\.?0+$/, ''));
  return unit === undefined || unit === '°' || unit === units ? plain : `${plain} ${unit}`;
}

/** What a property in words is in a shop. */
const WORDED: Partial<Record<Code, (text: string, row: Row) => string | undefined>> = {
  TDZ: threadOf,
  TCHA: classOf,
  TCDC: classOf,
  BMC: materialOf,
  CCC: (text) =>
    /^(?:yes|y|true|t|1|ja)$/i.test(text) ? 'yes' : /^(?:no|n|false|f|0|nein)$/i.test(text) ? 'no' : undefined,
  // DIN 2197: form A 6 to 8 threads, B and D 3.5 to 5.5, C 2 to 3, E 1.5 to 2. Of two words the one that needs more room. From memory.
  THCHT: (text) =>
    /taper|^(?:form )?a$/i.test(text)
      ? 'taper'
      : /bottom|^(?:form )?[ef]$/i.test(text)
        ? 'bottoming'
        : /plug|second|^(?:form )?[bcd]$/i.test(text)
          ? 'plug'
          : undefined,
};

/** With its pitch, which tells a fine thread from a coarse one. A tap for MF threads is named `MF8`. */
function threadOf(text: string, { values }: Row): string | undefined {
  const pitch = values.get('TP');
  const plain = text.replace(/^mf(?=\s*\d)/i, 'M');
  const pitched =
    pitch && 'n' in pitch && pitch.unit === 'mm' && /^m\s*\d+(?:\.\d+)?$/i.test(plain) ? `${plain}x${pitch.n}` : plain;
  const found = findThread(pitched);
  return found?.designation;
}

/** A hole’s class: a capital letter. Of a cutter’s own width, `h10`, nothing follows for the hole. */
function classOf(text: string): string | undefined {
  return /^[A-Z]{1,2}\d{1,2}$/.test(text.trim()) ? text.trim() : undefined;
}

function materialOf(text: string): string | undefined {
  if (/hss-?(?:e|co)|cobalt|\bm35\b|\bm42\b|kobalt/i.test(text)) return 'cobalt';
  if (/\bhss\b|high[ -]speed/i.test(text)) return 'hss';
  return /carbide|\bv?hm\b|hartmetall|\bhw\b|\bhc\b|insert/i.test(text) ? 'carbide' : undefined;
}
