/** What may be named in a job: rows of its parts' tables; in a joint parts with their features, screws, pins, bearings, each with the reason to pick it. */
import { homeOf } from '../model/feature-kinds';
import type { NameKind } from '../model/schema/common';
import { holeIn } from '../process/joints/slotted';
import { bearingNames, findBearing } from '../tables/bearings';
import { clearanceSizes } from '../tables/clearance';
import { SCREW_STANDARDS } from '../tables/fasteners';
import { PIN_DIAMETERS_MM } from '../tables/pins';
import { featureText } from './feature-text';
import { CompletionItemKind } from './shapes';
import type { JobSnapshot, Snapshot } from './snapshot';
import type { Suggestion } from './suggestion';

const value = (label: string, detail: string): Suggestion => ({ label, detail, kind: CompletionItemKind.Value });
const reference = (label: string, detail: string): Suggestion => ({
  label,
  detail,
  kind: CompletionItemKind.Reference,
});

type OfJoint = 'screw' | 'pin' | 'bearing' | 'joint' | 'meeting' | 'height' | 'piece' | 'variant';
const OF_JOINT: ReadonlySet<NameKind | undefined> = new Set<OfJoint>([
  'screw',
  'pin',
  'bearing',
  'joint',
  'meeting',
  'height',
  'piece',
  'variant',
]);

/** Whether only a job names such a thing. */
export function isOfJoint(names: NameKind | undefined): names is OfJoint {
  return OF_JOINT.has(names);
}

export function jointSuggestions(snapshot: Snapshot, names: OfJoint, path: readonly string[]): readonly Suggestion[] {
  if (snapshot.kind !== 'job') return names === 'pin' || names === 'bearing' ? seats(names) : [];
  switch (names) {
    case 'screw':
      return screws();
    case 'pin':
    case 'bearing':
      return seats(names);
    case 'joint':
      return snapshot.checked.job.joints
        .filter((j) => j.name !== path[1])
        .map((j) => reference(j.name, `another joint, by its ${j.kind}`));
    case 'meeting':
      return features(snapshot, path);
    case 'height':
      return heights(snapshot);
    case 'piece':
      return [];
    case 'variant':
      return variantsOf(snapshot, path);
    default:
      return names satisfies never;
  }
}

function screws(): readonly Suggestion[] {
  const metric = clearanceSizes().filter((size) => size.startsWith('M'));
  return [
    ...metric.map((size) => value(size, 'the check gives the length')),
    ...Object.entries(SCREW_STANDARDS).map(([name, head]) => value(`${name} M5x16`, `${head} head`)),
  ];
}

/** Holes for screws and pins; for what sits in something all that is round or has sides. */
function features({ pieces }: JobSnapshot, path: readonly string[]): readonly Suggestion[] {
  const key = path.find((step) => KEYS.has(step));
  const holes = key === 'through' || key === 'into' || key === 'in';
  return pieces.flatMap(({ entry, checked: { part } }) =>
    part.features
      .filter((f) => (holes ? holeIn(f) !== undefined : key === 'shaft' ? homeOf(f).form === 'outside' : true))
      .filter((f) => key !== 'nut-in' || ['opening', 'channel'].includes(homeOf(f).form))
      .filter((f) => key !== 'into' || (f.kind === 'hole' && f.thread !== undefined))
      .filter((f) => key !== 'through' || !(f.kind === 'hole' && f.thread !== undefined))
      .map((f) => reference(`${entry.name}.${f.name}`, featureText(f, part))),
  );
}
const KEYS: ReadonlySet<string> = new Set(['through', 'into', 'in', 'seat', 'shaft', 'nut-in']);

function heights({ pieces }: JobSnapshot): readonly Suggestion[] {
  return pieces.flatMap(({ entry, checked: { part } }) => [
    ...(['x', 'y', 'z'] as const).map((axis, i) =>
      reference(`${entry.name}.${axis}`, `${Number(part.size[i]!.toFixed(3))} mm, its body along ${axis}`),
    ),
    ...part.features
      .filter((f) => 'depth' in f && f.depth?.length)
      .map((f) => reference(`${entry.name}.${f.name}`, featureText(f, part))),
  ]);
}

/** The rows of the table that the part of an entry has. */
function variantsOf({ pieces }: JobSnapshot, path: readonly string[]): readonly Suggestion[] {
  const piece = pieces.find((p) => p.entry.name === path[1]);
  return (piece?.variants ?? []).map((name) => reference(name, `a variant of ${piece?.entry.spec.name}`));
}

function seats(names: 'pin' | 'bearing'): readonly Suggestion[] {
  if (names === 'pin') return PIN_DIAMETERS_MM.map((mm) => value(`ISO 8734 ${mm}x${mm * 4}`, `hardened pin, ${mm} m6`));
  return bearingNames().map((name) => {
    const { boreMm, outsideMm, widthMm } = findBearing(name)!;
    return value(name, `deep-groove ball bearing, ${boreMm} × ${outsideMm} × ${widthMm} mm`);
  });
}
