/** What a part's text says beyond its shape, in words and millimetres: for formats that carry text but no limits. */

import { threadedBoss } from '../model/feature-kinds';
import type { GeometricTolerance, Length, Part, Tolerance } from '../model/model';
import { sizesOf } from '../rules/kit/sizes';

interface Stated {
  /** `bearing-seat diameter` */
  readonly of: string;
  /** `22 mm H7 (+0.021/+0 mm)` */
  readonly says: string;
}

/** Toleranced sizes, threads and geometric tolerances, in text order. */
export function statedTolerances(part: Part): readonly Stated[] {
  const out: Stated[] = [];
  for (const { feature, what, length, tolerance } of sizesOf(part)) {
    out.push({
      of: feature ? `${feature.name} ${what}` : `body ${what}`,
      says: `${mm(length.mm)} ${limits(tolerance)}`,
    });
  }
  for (const feature of part.features) {
    if (feature.kind === 'hole' && feature.thread) {
      out.push({ of: `${feature.name} thread`, says: feature.thread.designation });
      if (feature.threadDepth) out.push({ of: `${feature.name} thread depth`, says: mm(feature.threadDepth.mm) });
    }
    const boss = threadedBoss(feature);
    if (boss) {
      out.push({ of: `${feature.name} thread`, says: boss.thread.designation });
      out.push({ of: `${feature.name} thread depth`, says: mm(boss.thread.deep.mm) });
      const { undercut } = boss.thread;
      if (undercut)
        out.push({
          of: `${feature.name} undercut`,
          says: `${mm(undercut.width.mm)} x ${mm(undercut.diameter.mm)}${undercut.source ? ` (${undercut.source})` : ''}`,
        });
    }
    if (feature.finish) out.push({ of: `${feature.name} surface`, says: `Ra ${round(feature.finish.raUm)} µm` });
  }
  for (const t of part.tolerances) out.push({ of: t.of.map((n) => n.name).join(', '), says: geometric(t) });
  return out;
}

/** What is asked of the whole part besides its sizes; what is written on a feature for whoever makes it, too. */
export function statedRequirements({ treatment, coating, deburr, notes, features }: Part): readonly Stated[] {
  const masked = coating?.masked.map((m) => m.name).join(', ');
  const coat = coating && [
    coating.name,
    ...(coating.thickness ? [mm(coating.thickness.mm) + tolerated(coating.thickness)] : []),
    ...(masked ? [`not on ${masked}`] : []),
  ];
  return [
    ...(treatment ? [{ of: 'treatment', says: treatment.name }] : []),
    ...(coat ? [{ of: 'coating', says: `${coat.join(', ')}; sizes are those of the coated part` }] : []),
    ...(deburr?.outside ? [{ of: 'outside edges', says: `at most ${mm(deburr.outside.mm)} off` }] : []),
    ...(deburr?.inside ? [{ of: 'inside edges', says: `at most ${mm(deburr.inside.mm)} left` }] : []),
    ...notes.map((says) => ({ of: 'note', says })),
    ...features.flatMap(({ name, note }) => (note ? [{ of: `${name} note`, says: note }] : [])),
  ];
}

function tolerated({ tolerance }: Length): string {
  return tolerance ? ` ${limits(tolerance)}` : '';
}

function limits({ text, fit, upperMm, lowerMm }: Tolerance): string {
  const known = upperMm === undefined || lowerMm === undefined ? undefined : `${signed(upperMm)}/${signed(lowerMm)} mm`;
  if (!fit) return known ?? text;
  return known ? `${text} (${known})` : text;
}

function geometric(t: GeometricTolerance): string {
  const { characteristic, value, datums, maximumMaterial, axis, projected, commonZone, between, note } = t;
  const words = [characteristic, mm(value.mm)];
  if (value.tolerance) words.push(limits(value.tolerance));
  if (axis) words.push(`along ${axis}`);
  if (maximumMaterial) words.push('at maximum material');
  if (projected) words.push(`projected by ${mm(projected.mm)}`);
  if (commonZone) words.push('in a common zone');
  if (between) words.push(`between ${between.map((n) => n.name).join(' and ')}`);
  if (datums.length > 0) words.push(`to ${datums.map((d) => d.name).join(', ')}`);
  return note ? `${words.join(' ')}: ${note}` : words.join(' ');
}

const round = (x: number) => Math.round(x * 1e6) / 1e6;
const mm = (x: number) => `${round(x)} mm`;
const signed = (x: number) => `${x < 0 ? '' : '+'}${round(x)}`;
