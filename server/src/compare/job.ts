/** Two revisions of a job: its parts and how many, its joints, its limits, its shop and saw; what it comes to; what is found of it. */
import type { Job, JobPart } from '../model/job-model';
import { type JobPiece, jobBars } from '../planning/job';
import { type JobFigures, jobFigures } from '../report/job-figures';
import type { Finding } from '../rules/kit/rule';
import type { TextTree } from '../text/tree';
import { sorted } from './findings';
import { type JointChange, jointChanges, type Renames } from './joints';
import { type Difference, differences, type Fact, type Facts } from './meaning';
import { pairedBy } from './pairs';
import type { FigureChange, PartChange } from './part';
import { jobPath } from './places';
import { comparable, hides, type Unread, unreadOf } from './unread';

interface JobPartChange {
  readonly kinds: readonly ('added' | 'gone' | 'renamed' | 'changed')[];
  readonly name: string;
  readonly wasName?: string;
  /** What came or went: `2 × parts/lid.part.yaml`. */
  readonly is?: string;
  readonly differences: readonly Difference[];
}

export interface JobChange {
  readonly name: string;
  /** Nothing that is meant has changed in the job itself; its parts are compared by themselves. */
  readonly same: boolean;
  readonly textDiffers: boolean;
  /** Its limits, its shop, its saw. */
  readonly job: readonly Difference[];
  readonly parts: readonly JobPartChange[];
  readonly joints: readonly JointChange[];
  /** That differ: mass, hours, money, bars. */
  readonly figures: readonly FigureChange[];
  readonly findings: {
    readonly raised: readonly Finding[];
    readonly cured: readonly Finding[];
    readonly kept: readonly Finding[];
  };
  /** As of a part. */
  readonly unread?: readonly Unread[];
}

/** One revision: its text, what it means, its parts as far as they could be read, and what is found of it. */
interface JobSide {
  readonly text: string;
  readonly tree: TextTree;
  readonly job: Job;
  readonly pieces: readonly JobPiece[];
  readonly findings: readonly Finding[];
}

/** `renamed`: features of its parts, by the names that the new job gives the parts, old name by new. */
export function jobChange(before: JobSide, after: JobSide, renamed: Renames = new Map()): JobChange {
  const unread =
    before.text === after.text
      ? []
      : [...unreadOf(before, 'before', isNothing(before)), ...unreadOf(after, 'after', isNothing(after))];
  if (unread.some((u) => u.whole)) return notCompared(before, after, unread);
  const hidden = { before: hides(before), after: hides(after) };
  const isReadable = ({ kinds, name }: { readonly kinds: readonly string[]; readonly name: string }, list: string) =>
    !(kinds.includes('added') && hidden.before([list, name])) &&
    !(kinds.includes('gone') && hidden.after([list, name]));
  const pairs = paired(before, after);
  const now = new Map(pairs.flatMap(([a, b]) => (a && b ? [[a.name, b.name] as const] : [])));
  const job = comparable(differences(jobFacts(before.job), jobFacts(after.job)), (side, { what }) =>
    hidden[side](jobPath(what)),
  );
  const parts = pairs
    .flatMap(([a, b]) => partChangeOf(a, b, [before, after]) ?? [])
    .filter((p) => isReadable(p, 'parts'));
  const joints = jointChanges(before.job, after.job, { pieces: now, features: renamed }).filter((j) =>
    isReadable(j, 'joints'),
  );
  const { raised, cured, kept } = sorted(before.findings, after.findings);
  return {
    name: after.job.name,
    same: job.length + parts.length + joints.length + unread.length === 0,
    textDiffers: before.text !== after.text,
    job,
    parts,
    joints,
    figures: figureChanges(before, after),
    findings: { raised, cured, kept },
    ...(unread.length > 0 && { unread }),
  };
}

function isNothing({ tree, job }: JobSide): boolean {
  return tree.root?.type !== 'map' || job.parts.length === 0;
}

function notCompared(before: JobSide, after: JobSide, unread: readonly Unread[]): JobChange {
  const none = { job: [], parts: [], joints: [], figures: [], findings: { raised: [], cured: [], kept: [] } };
  return { name: after.job.name, same: false, textDiffers: before.text !== after.text, ...none, unread };
}

type Pair = readonly [JobPart | undefined, JobPart | undefined];

/** By name, then by what they are made to. */
function paired(before: JobSide, after: JobSide): readonly Pair[] {
  const { pairs, gone, added } = pairedBy(
    before.job.parts,
    after.job.parts,
    (a, b) => a.name === b.name,
    (a, b) => a.spec.name === b.spec.name && a.variant?.name === b.variant?.name,
  );
  return [...pairs, ...added.map((b): Pair => [undefined, b]), ...gone.map((a): Pair => [a, undefined])];
}

function partChangeOf(
  a: JobPart | undefined,
  b: JobPart | undefined,
  [before, after]: readonly [JobSide, JobSide],
): JobPartChange | undefined {
  const count = (of: JobPart, { pieces }: JobSide) =>
    of.quantity?.value ?? pieces.find((p) => p.entry.name === of.name)?.quantity;
  const is = (of: JobPart, side: JobSide) =>
    `${count(of, side) ?? '?'} × ${of.spec.name}${of.variant ? `, ${of.variant.name}` : ''}`;
  if (!a || !b) {
    if (b) return { kinds: ['added'], name: b.name, is: is(b, after), differences: [] };
    return a && { kinds: ['gone'], name: a.name, is: is(a, before), differences: [] };
  }
  const facts = (of: JobPart, side: JobSide) =>
    words({ file: of.spec.name, variant: of.variant?.name, quantity: count(of, side)?.toString() });
  const found = differences(facts(a, before), facts(b, after));
  const isRenamed = a.name !== b.name;
  if (found.length === 0 && !isRenamed) return undefined;
  return {
    kinds: [...(isRenamed ? (['renamed'] as const) : []), ...(found.length > 0 ? (['changed'] as const) : [])],
    name: b.name,
    ...(isRenamed && { wasName: a.name }),
    differences: found,
  };
}

function jobFacts({ name, shopPath, massLimitG, hours, evening, saw, parameters }: Job): Facts {
  const amount = (value: number | undefined, unit: string) =>
    value === undefined ? undefined : `${Number(value.toFixed(3))} ${unit}`;
  return new Map([
    ...words({
      name,
      shop: shopPath?.name,
      'mass limit': amount(massLimitG?.value, 'g'),
      hours: amount(hours?.value, 'h'),
      evening: amount(evening?.value, 'h'),
      'saw kerf': amount(saw.kerfMm, 'mm'),
      'saw clamp': amount(saw.clampMm, 'mm'),
      'saw trim': amount(saw.trimMm, 'mm'),
    }),
    ...words(Object.fromEntries(parameters.map((p) => [`parameter ${p.name}`, quantityText(p.value)]))),
  ]);
}

function quantityText({ dimension, value }: Job['parameters'][number]['value']): string {
  return `${Number(value.toFixed(5))}${{ length: ' mm', angle: '°', number: '' }[dimension]}`;
}

/** Those that are said. */
function words(of: Readonly<Record<string, string | undefined>>): Facts {
  return new Map(
    Object.entries(of).flatMap(([what, text]): [string, Fact][] =>
      text === undefined ? [] : [[what, { key: text, shown: text }]],
    ),
  );
}

function figureChanges(before: JobSide, after: JobSide): readonly FigureChange[] {
  const [a, b] = [figuresOf(before), figuresOf(after)];
  const [went, came] = [barsOf(before), barsOf(after)];
  const only = (all: readonly string[], others: readonly string[]) =>
    all.filter((bar) => !others.includes(bar)).join('; ');
  const bars: FigureChange = { what: 'bars to buy', unit: '', before: only(went, came), after: only(came, went) };
  const rows = a.flatMap((row, i) => {
    const { value } = b[i]!;
    if (JSON.stringify(row.value) === JSON.stringify(value)) return [];
    return [{ what: row.what, unit: b[i]!.unit || row.unit, before: row.value, after: value }];
  });
  return bars.before === bars.after ? rows : [...rows, bars];
}

function barsOf({ job, pieces }: JobSide): readonly string[] {
  return jobBars(job, pieces).flatMap(({ what, bought }) =>
    bought.map((bar) => `${bar.count} × ${what}, ${Number(bar.lengthMm.toFixed(1))} mm`),
  );
}

function figuresOf({ job, pieces }: JobSide) {
  const { mass_g, machine_h, person_h, cost, pieces: count }: JobFigures = jobFigures(job, pieces);
  const rows: readonly { readonly what: string; readonly unit: string; readonly value: FigureChange['before'] }[] = [
    { what: 'pieces', unit: '', value: count },
    { what: 'mass', unit: 'g', value: mass_g },
    { what: 'at the machine', unit: 'h', value: machine_h },
    { what: 'hours of a person', unit: 'h', value: person_h },
    { what: 'cost', unit: cost?.currency ?? '', value: cost?.total ?? null },
  ];
  return rows;
}

/** The features of its parts that only have another name, by the names of the new job. */
export function renamesOf(of: readonly { readonly piece: string; readonly change: PartChange }[]): Renames {
  return new Map(
    of.map(({ piece, change }) => [
      piece,
      new Map(
        change.features.flatMap(({ kinds, name, wasName }) =>
          wasName === undefined || kinds.includes('rewritten') ? [] : [[wasName, name] as const],
        ),
      ),
    ]),
  );
}
