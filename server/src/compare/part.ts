/** Two revisions of one part: what changed of it as a part, in figures, and in what is found. */

import { barOf } from '../model/bar';
import type { Part } from '../model/model';
import { orderOf, pieceTime, timeIn } from '../planning/piece-time';
import { leastWall } from '../report/at-hand';
import { figuresOf, spentFigures } from '../report/figures';
import type { CheckedPart } from '../rules/checked-part';
import { type FeatureChange, featureChanges } from './features';
import { type FindingChanges, findingChanges } from './findings';
import { type Difference, differences, type Fact, type Facts, factsOf, type Reader } from './meaning';
import { partPath, setupPath } from './places';
import { comparable, hides, type Unread, unreadOf } from './unread';

/** A figure of both; null where it cannot be said. Ranges are [low, high]. */
export interface FigureChange {
  readonly what: string;
  readonly unit: string;
  readonly before: number | readonly [number, number] | string | null;
  readonly after: number | readonly [number, number] | string | null;
}

export interface PartChange {
  readonly name: string;
  /** Nothing that is meant has changed, in the part or how it is made. */
  readonly same: boolean;
  /** The texts differ: where `same`, in how they say it only. */
  readonly textDiffers: boolean;
  /** Material, body, stock, general tolerance, datums and the like. */
  readonly part: readonly Difference[];
  readonly features: readonly FeatureChange[];
  readonly setups: readonly Difference[];
  /** That differ. */
  readonly figures: readonly FigureChange[];
  readonly findings: FindingChanges;
  /** What of one text, or both, cannot be read, and so is not compared. Absent where all can. */
  readonly unread?: readonly Unread[];
}

export function partChange(before: CheckedPart, after: CheckedPart): PartChange {
  const unread =
    before.tree.text === after.tree.text
      ? []
      : [...unreadOf(before, 'before', isNothing(before)), ...unreadOf(after, 'after', isNothing(after))];
  if (unread.some((u) => u.whole)) return notCompared(before, after, unread);
  const hidden = { before: hides(before), after: hides(after) };
  const features = readableOf(featureChanges(before.part, after.part), hidden);
  const { old, now } = readersOf(features, after.part);
  const part = asWholes(differences(partFacts(before.part, old), partFacts(after.part, now)), {
    before: tolerancesOf(before.part, old),
    after: tolerancesOf(after.part, now),
  });
  const setups = asWholes(differences(setupFacts(before.part, old), setupFacts(after.part, now)), {
    before: setupsOf(before.part, old),
    after: setupsOf(after.part, now),
  });
  const said = {
    part: comparable(part, (side, { what }) => hidden[side](partPath(what))),
    setups: comparable(setups, (side, { what }) => hidden[side](setupPath(what))),
  };
  const meant = features.filter((f) => !f.kinds.includes('rewritten'));
  return {
    name: after.part.name,
    same: said.part.length + meant.length + said.setups.length + unread.length === 0,
    textDiffers: before.tree.text !== after.tree.text,
    part: said.part,
    features,
    setups: said.setups,
    figures: figureChanges(before, after),
    findings: findingChanges(before, after, old.nameOf),
    ...(unread.length > 0 && { unread }),
  };
}

function isNothing({ part, tree }: CheckedPart): boolean {
  return tree.root?.type !== 'map' || (part.features.length === 0 && !part.body);
}

function notCompared(before: CheckedPart, after: CheckedPart, unread: readonly Unread[]): PartChange {
  const none = { part: [], features: [], setups: [], figures: [] };
  const findings = { raised: [], cured: [], kept: [], accepted: [], takenBack: [] };
  const textDiffers = before.tree.text !== after.tree.text;
  return { name: after.part.name, same: false, textDiffers, ...none, findings, unread };
}

/** What the other text has under that name, and cannot be read, has neither come nor gone. */
function readableOf(
  changes: readonly FeatureChange[],
  hidden: Readonly<Record<Unread['side'], ReturnType<typeof hides>>>,
): readonly FeatureChange[] {
  const at = (name: string) => ['features', name];
  return changes.flatMap((change): readonly FeatureChange[] => {
    const { kinds, name, wasName = name } = change;
    if (kinds.includes('added')) return hidden.before(at(name)) ? [] : [change];
    if (kinds.includes('gone')) return hidden.after(at(name)) ? [] : [change];
    const left = comparable(change.differences, (side) => hidden[side](at(side === 'before' ? wasName : name)));
    if (left.length === change.differences.length) return [change];
    return left.length > 0 || wasName !== name ? [{ ...change, differences: left }] : [];
  });
}

/** Names of the old text as the new one has them; members of one pattern, in either text, under one name. */
function readersOf(
  features: readonly FeatureChange[],
  { units }: Part,
): { readonly old: Reader; readonly now: Reader } {
  const [old, now] = [new Map<string, string>(), new Map<string, string>()];
  for (const { kinds, name, wasName = name } of features) {
    if (!kinds.includes('rewritten')) old.set(wasName, name);
    else {
      for (const was of wasName.split(', ')) old.set(was, name);
      for (const is of name.split(', ')) now.set(is, name);
    }
  }
  const reader = (names: ReadonlyMap<string, string>) => ({ units, nameOf: (n: string) => names.get(n) ?? n });
  return { old: reader(old), now: reader(now) };
}

export function partFacts(part: Part, reader: Reader): Facts {
  const { title, revision, material, quantity, tolerance, body, stock, tolerances, datums, shopPath, variants } = part;
  const { treatment, coating, deburr, notes } = part;
  const facts = new Map<string, Fact>();
  const put = (name: string, more: Facts) => {
    for (const [path, fact] of more) facts.set(`${name} ${path}`.trim(), fact);
  };
  const word = (name: string, text: string | undefined) =>
    text !== undefined && facts.set(name, { key: text, shown: text });
  word('name', part.name);
  word('title', title);
  word('revision', revision);
  word('material', material?.name);
  word('quantity', String(quantity));
  word('general tolerance', tolerance?.name);
  word('treatment', treatment?.name);
  word('notes', notes.length > 0 ? notes.join('; ') : undefined);
  if (coating) {
    const masked = coating.masked.map((m) => reader.nameOf(m.name)).join(', ');
    word(
      'coating',
      `${coating.name} ${coating.thickness?.text ?? ''}${masked === '' ? '' : `, not ${masked}`}`.trimEnd(),
    );
  }
  if (deburr) put('deburr', factsOf(deburr, reader));
  word('shop', shopPath?.name);
  if (body) put('body', factsOf(body, reader));
  put('stock', factsOf(stock, reader));
  for (const t of tolerances) {
    const { of: _, ...said } = t;
    put(toleranceName(t, reader), factsOf(said, reader));
  }
  for (const { name, values } of variants)
    word(`variant ${name}`, values.map((v) => `${v.name} ${v.text}`).join(', ') || 'as the parameters say');
  for (const [letter, { target }] of datums) word(`datum ${letter}`, reader.nameOf(target.name));
  return facts;
}

/** By name and order; how each holds, finds zero, what it cuts in which order, and with what. */
export function setupFacts({ setups = [] }: Part, reader: Reader): Facts {
  const facts = new Map<string, Fact>();
  const names = setups.map((s) => s.name).join(', ');
  if (names) facts.set('set-ups', { key: names, shown: names });
  for (const setup of setups)
    for (const [path, fact] of factsOf(setup, reader)) facts.set(`set-up ${setup.name}: ${path}`, fact);
  return facts;
}

/** Things that have a name and many fields, each with a few words of what it is. */
type Wholes = ReadonlyMap<string, string>;

function toleranceName({ characteristic, of }: Part['tolerances'][number], { nameOf }: Reader): string {
  return `${characteristic} of ${of.map((n) => nameOf(n.name)).join(', ')}`;
}

function tolerancesOf({ tolerances }: Part, reader: Reader): Wholes {
  return new Map(
    tolerances.map((t) => [toleranceName(t, reader), factsOf({ value: t.value }, reader).get('')?.shown ?? '']),
  );
}

function setupsOf({ setups = [] }: Part, reader: Reader): Wholes {
  return new Map(
    setups.map((setup) => [
      `set-up ${setup.name}`,
      `up ${setup.up?.name ?? 'not said'}: ${setup.cuts.map((c) => reader.nameOf(c.name)).join(', ') || 'no cuts'}`,
    ]),
  );
}

/** What came or went as a whole is one change, not one for each of its fields. */
function asWholes(
  found: readonly Difference[],
  { before, after }: { readonly before: Wholes; readonly after: Wholes },
): readonly Difference[] {
  const told = new Set<string>();
  return found.flatMap((difference) => {
    const of = (wholes: Wholes) => [...wholes.keys()].find((name) => belongs(difference.what, name));
    const [old, now] = [of(before), of(after)];
    const name = old ?? now;
    if (name === undefined || (old !== undefined && now !== undefined)) return [difference];
    if (told.has(name)) return [];
    told.add(name);
    return [{ what: name, ...(old === undefined ? { after: after.get(name)! } : { before: before.get(name)! }) }];
  });
}

function belongs(what: string, name: string): boolean {
  return what === name || what.startsWith(`${name} `) || what.startsWith(`${name}:`);
}

function figureChanges(before: CheckedPart, after: CheckedPart): readonly FigureChange[] {
  const [a, b] = [before, after].map(figures) as [ReturnType<typeof figures>, ReturnType<typeof figures>];
  return a.flatMap((row, i) => {
    const { after: value } = { after: b[i]!.value };
    if (JSON.stringify(row.value) === JSON.stringify(value)) return [];
    return [{ what: row.what, unit: row.unit, before: row.value, after: value }];
  });
}

function figures(checked: CheckedPart): readonly { what: string; unit: string; value: FigureChange['before'] }[] {
  const { volume_mm3, mass_g, centroid_mm } = figuresOf(checked);
  const { machine_min, cost } = spentFigures(checked);
  const time = pieceTime(checked) && timeIn(checked, orderOf(checked).order, orderOf(checked).setups).machine;
  const wall = leastWall(checked);
  const bar = barOf(checked.part);
  return [
    { what: 'volume', unit: 'mm³', value: volume_mm3 },
    { what: 'mass', unit: 'g', value: mass_g },
    {
      what: 'balance',
      unit: 'mm',
      value: centroid_mm ? centroid_mm.map((c) => Number(c.toFixed(3))).join(', ') : null,
    },
    { what: 'least wall', unit: 'mm', value: wall ? Number(wall.thicknessMm.toFixed(4)) : null },
    { what: 'bar', unit: 'mm', value: bar ? `${bar.sectionMm.join(' × ')}, sawn ${bar.pieceMm}` : null },
    { what: 'set-ups', unit: '', value: time?.setups.length ?? null },
    {
      what: 'tools',
      unit: '',
      value: time ? [...new Set(time.setups.flatMap((s) => s.tools.map((t) => t.name)))].sort().join(', ') : null,
    },
    { what: 'at the machine', unit: 'min', value: machine_min },
    { what: 'cost', unit: cost?.currency ?? '', value: cost?.total ?? null },
  ];
}
