/** Figures of findings as people read them: a name of the shop, a value, its unit. The keys are for programs. */
import { GENERAL, type Names, PLAIN, SAID } from './fact-names';
import { NAMES_OF_RULE } from './fact-names-of-rules';
import type { Finding } from './kit/rule';

/** How a key ends, and the unit that it says. */
const UNITS: Readonly<Record<string, string>> = {
  mm: ' mm',
  mm2: ' mm²',
  mm3: ' mm³',
  cm3: ' cm³',
  deg: '°',
  um: ' µm',
  n: ' N',
  kn: ' kN',
  nm: ' N·m',
  mpa: ' N/mm²',
  w: ' W',
  g: ' g',
  kg: ' kg',
  s: ' s',
  min: ' min',
  h: ' h',
  percent: ' %',
  rpm: ' rpm',
  mm_per_min: ' mm/min',
  m_per_min: ' m/min',
};
/** Tolerances are told to a thousandth; of everything else three digits say all there is to know. */
const FINE: ReadonlySet<string> = new Set([' mm', ' µm', '°']);

interface Key {
  readonly stem: string;
  readonly unit: string;
}

function keyParts(key: string): Key {
  const [, stem, end] = /^(?:(.+?)_)?(m{1,2}_per_min|[a-z0-9]+)$/.exec(key) ?? [];
  const unit = end !== undefined && Object.hasOwn(UNITS, end) ? UNITS[end] : undefined;
  return unit === undefined || stem === undefined ? { stem: key, unit: '' } : { stem, unit };
}

/** What a figure is called; empty where the message says it already, undefined where nothing has named it. */
function nameOfFact(rule: string, written: string): string | undefined {
  // `radius_2_mm` is one of several radii.
  const key = written.replace(/_\d+(?=_mm$|$)/, '');
  const { stem } = keyParts(key);
  const own: Names = NAMES_OF_RULE[rule] ?? {};
  const named = own[key] ?? own[stem] ?? GENERAL[key] ?? GENERAL[stem];
  if (named !== undefined) return named;
  if (SAID.has(key)) return '';
  if (PLAIN.has(key)) return key;
  return PLAIN.has(stem) ? stem : undefined;
}

const spoken = (key: string) => key.replaceAll('_', ' ');

/** `thickness 0.4 mm`, `slope 28°`, `feed 400 mm/min`. */
function factWords(rule: string, key: string, value: number | string): string {
  const { stem, unit } = keyParts(key);
  const name = nameOfFact(rule, key) ?? spoken(stem);
  const text = typeof value === 'number' ? figure(value, unit) : value;
  if (name === '') return '';
  return name.includes('…') ? name.replace('…', name.endsWith('…') ? text : bare(text, unit)) : `${name} ${text}`;
}

const bare = (text: string, unit: string) => (text.endsWith(unit) ? text.slice(0, text.length - unit.length) : text);

function figure(value: number, unit: string): string {
  return `${rounded(value, unit)}${unit}`;
}

function rounded(value: number, unit: string): number {
  if (FINE.has(unit) || Number.isInteger(value)) return Number(value.toFixed(3));
  return Math.abs(value) >= 100 ? Math.round(value) : Number(value.toPrecision(3));
}

/** The numbers behind a finding, each with its name and unit; what its message says already is left out. */
export function figuresOf({ rule, facts }: Pick<Finding, 'rule' | 'facts'>): readonly string[] {
  return Object.entries(facts)
    .map(
      ([key, value]) =>
        rangeWords(rule, key, facts) ?? linkWords(key, facts) ?? moneyWords(key, facts) ?? factWords(rule, key, value),
    )
    .filter((words) => words !== '');
}

/** `saved_low_min` and `saved_high_min` are one range. */
function rangeWords(rule: string, key: string, facts: Finding['facts']): string | undefined {
  const [, what = '', end, unit] = /^(?:(.+)_)?(low|high)_(min|h)$/.exec(key) ?? [];
  if (end === undefined) return undefined;
  const at = (which: string) => Number(facts[`${what}${what && '_'}${which}_${unit}`]);
  const name = nameOfFact(rule, what) ?? spoken(what);
  return end === 'high' ? '' : `${name} ${rounded(at('low'), '')} to ${figure(at('high'), UNITS[unit!]!)}`.trim();
}

/** A link of a chain is what it is, and by how much it may be off. */
function linkWords(key: string, facts: Finding['facts']): string | undefined {
  if (!/^link_\d+(?:_mm)?$/.test(key)) return undefined;
  return key.endsWith('_mm') ? '' : `${facts[key]} ±${figure(Number(facts[`${key}_mm`]), ' mm')}`;
}

function moneyWords(key: string, { saved_money: saved, currency }: Finding['facts']): string | undefined {
  return key === 'saved_money' ? `saves ${figure(Number(saved), '')} ${currency}` : undefined;
}
