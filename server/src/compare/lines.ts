/** A comparison in words, a line each: what a terminal and a Markdown page say alike. */
import type { FeatureChange } from './features';
import type { ComparedPart } from './json';
import type { Difference } from './meaning';
import type { FigureChange, PartChange } from './part';
import { touchedLines } from './touches';
import { unreadTexts, unreadVerdict } from './unread';

/** `added`, `gone`, `moved`, …: one word for each kind of change. */
const WORDS: Readonly<Record<FeatureChange['kinds'][number], string>> = {
  added: 'new',
  gone: 'gone',
  moved: 'moved',
  resized: 'resized',
  tolerance: 'tolerance',
  changed: 'changed',
  renamed: 'renamed',
  rewritten: 'same, written anew',
};

interface FeatureLine {
  readonly word: string;
  readonly text: string;
}

export function featureLine(change: FeatureChange): FeatureLine {
  const { kinds, kind, name, wasName, is, differences } = change;
  const was = wasName === undefined ? '' : ` (was ${wasName})`;
  const what = is ?? differences.map(differenceText).join('; ');
  return {
    word: kinds.map((k) => WORDS[k]).join(', '),
    text: `${is ? '' : `${kind} `}${name}${was}${what ? `: ${what}` : ''}`,
  };
}

/** `diameter 32 mm → 33 mm`; what came or went is said so. */
export function differenceText({ what, before, after }: Difference): string {
  if (before === undefined) return `${what} ${after}, new`;
  if (after === undefined) return `${what} ${before}, gone`;
  return `${what} ${before} → ${after}`;
}

/** `mass 133.0 → 131.2 g (-1.8)`. */
export function figureText({ what, unit, before, after }: FigureChange): string {
  const by = typeof before === 'number' && typeof after === 'number' ? ` (${signed(after - before)})` : '';
  const named = unit ? ` ${unit}` : '';
  const [was, is] = isSpan(before) && isSpan(after) ? spansText(before, after) : [valueText(before), valueText(after)];
  return `${what === 'least wall' ? 'thinnest wall' : what} ${was} → ${is}${named}${by}`;
}

type Span = readonly [number, number];
const isSpan = (value: FigureChange['before']): value is Span => Array.isArray(value);

function valueText(value: FigureChange['before']): string {
  if (value === null) return 'not known';
  if (typeof value === 'string') return value || 'none';
  if (typeof value === 'number') return digits(value);
  return spanText(value, decimalsOf(value));
}

/** An estimate from a least to a most has no thousandths: as many decimals as tell the two apart, and no more. */
function spansText(before: Span, after: Span): readonly [string, string] {
  for (let decimals = decimalsOf([...before, ...after]); ; decimals++) {
    const [was, is] = [spanText(before, decimals), spanText(after, decimals)];
    if (was !== is || decimals >= MOST_DECIMALS) return [was, is];
  }
}

const MOST_DECIMALS = 3;
const decimalsOf = (values: readonly number[]) => (Math.max(...values) >= 100 ? 0 : 1);
const spanText = ([low, high]: Span, decimals: number) =>
  `${Number(low.toFixed(decimals))} to ${Number(high.toFixed(decimals))}`;

function digits(value: number): string {
  const most = Math.abs(value) >= 1000 ? 0 : Math.abs(value) >= 100 ? 1 : 3;
  return String(Number(value.toFixed(most)));
}

function signed(by: number): string {
  return `${by > 0 ? '+' : ''}${digits(by)}`;
}

/** How many things of the part changed, or that none did. */
export function verdict(change: PartChange): string {
  const { same, textDiffers, part, features, setups } = change;
  const unread = unreadVerdict(change.unread);
  if (unread) return unread;
  if (same) return textDiffers ? 'the same part, written in another way' : 'the same, letter by letter';
  const n = part.length + setups.length + features.filter((f) => !f.kinds.includes('rewritten')).length;
  return `${n} ${n === 1 ? 'change' : 'changes'}`;
}

/** All of one part, indented under its head. */
export function changeLines({ path, change, today, touches = [] }: ComparedPart): readonly string[] {
  const { part, features, setups, figures, findings } = change;
  const rows = features.map(featureLine);
  const wide = Math.max(0, ...rows.map((r) => r.word.length));
  const { raised, cured, kept, accepted, takenBack } = findings;
  return [
    `${path}: ${verdict(change)}`,
    ...unreadTexts(change.unread).map(({ text }) => `  not compared: ${text}`),
    ...part.map((d) => `  ${differenceText(d)}`),
    ...rows.map((r) => `  ${r.word.padEnd(wide)}  ${r.text}`),
    ...setups.map((d) => `  ${differenceText(d)}`),
    ...(figures.length > 0 ? ['  figures', ...figures.map((f) => `    ${figureText(f)}`)] : []),
    ...(raised.length + cured.length > 0
      ? [
          `  findings: ${raised.length} new, ${cured.length} fixed, ${kept.length} as before`,
          ...raised.map((f) => `    new    ${f.severity} ${f.rule}: ${f.message}`),
          ...cured.map((f) => `    cured  ${f.severity} ${f.rule}: ${f.message}`),
        ]
      : []),
    ...accepted.map((a) => `  accepts ${a.rule}${a.of ? ` of ${a.of}` : ''}: ${a.because ?? 'no reason given'}`),
    ...takenBack.map((a) => `  no longer accepts ${a.rule}${a.of ? ` of ${a.of}` : ''}`),
    ...touchedLines(touches).map((text) => `  ${text}`),
    ...todayTexts(today).map((text) => `  ${text}`),
  ];
}

/** What today's shop says of the new part, and its own shop did not; nothing where they agree. */
export function todayTexts(today: ComparedPart['today']): readonly string[] {
  if (!today) return [];
  return [
    ...today.raised.map((f) => `by today’s shop also ${f.severity} ${f.rule}: ${f.message}`),
    ...today.cured.map((f) => `by today’s shop no longer ${f.severity} ${f.rule}`),
  ];
}
