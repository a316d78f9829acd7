/** A part in a few sentences, for whoever has it read aloud: what it is, its size, its features, what was found. */

import { FEATURE_KINDS, type FeatureKind } from '../../model/feature-kinds';
import type { Part } from '../../model/model';
import { figuresOf } from '../../report/figures';
import { leftOutText } from '../../report/left-out';
import { count, list } from '../../rules/kit/message';
import { formatLength } from '../../text/format';
import type { PartSnapshot } from '../snapshot';

/** `missing`: features that the picture could not show. */
export function summaryOf(snapshot: PartSnapshot, missing: readonly string[] = []): string {
  const { part } = snapshot.checked;
  return [whatItIs(snapshot), leftOut(snapshot), features(part), setups(part), undrawn(missing), found(snapshot)]
    .filter(Boolean)
    .join(' ');
}

function whatItIs({ checked }: PartSnapshot): string {
  const { part } = checked;
  const figures = figuresOf(checked);
  const mm = (x: number) => formatLength(x, part.units);
  const size =
    part.body?.form === 'round'
      ? `${mm(part.body.diameter.mm)} in diameter and ${mm(part.body.length.mm)} long`
      : part.size.map(mm).join(' by ');
  const of = part.material ? `, ${part.material.name}` : '';
  const mass = figures.mass_g === null ? '' : `, ${figures.exact ? '' : 'about '}${figures.mass_g.toFixed(1)} g`;
  return `${part.title ?? part.name}: ${size}${of}${mass}.`;
}

function leftOut({ checked }: PartSnapshot): string {
  const names = leftOutText(checked);
  return names === undefined ? '' : `Without ${names.replaceAll('`', '')}, which could not be read.`;
}

function features({ features }: Part): string {
  if (features.length === 0) return 'Nothing is cut from it yet.';
  const kinds = new Map<FeatureKind, number>();
  for (const f of features) kinds.set(f.kind, (kinds.get(f.kind) ?? 0) + 1);
  const words = [...kinds].map(([kind, n]) => count(n, kind, FEATURE_KINDS[kind].plural));
  return `${count(features.length, 'feature')}: ${list(words)}.`;
}

function setups({ setups }: Part): string {
  if (!setups || setups.length === 0) return '';
  return `Cut in ${count(setups.length, 'setup')}.`;
}

function undrawn(missing: readonly string[]): string {
  return missing.length > 0 ? `Not drawn: ${list(missing)}.` : '';
}

function found({ findings }: PartSnapshot): string {
  if (findings.length === 0) return 'Nothing was found against it.';
  const of = (severity: string) => findings.filter((f) => f.severity === severity).length;
  const words = (['error', 'warning', 'hint'] as const).flatMap((s) => (of(s) > 0 ? [count(of(s), s)] : []));
  const first = findings.find((f) => f.severity === 'error');
  return `Found: ${list(words)}.${first ? ` First: ${first.message}` : ''}`;
}
