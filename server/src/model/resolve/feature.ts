/** From a feature's entry to the feature: its schema by its kind, then the kind's own resolver. */
import { type MapEntry, type MapNode, scalarAt } from '../../text/tree';
import { FEATURE_KINDS, type Feature, KINDS } from '../feature-kinds';
import { shapeOf } from '../schema/shape';
import { headOf } from './base';
import type { Evaluation } from './evaluation';
import { code, listed, nearest, quote, replace } from './problem';
import { faultsOf } from './validate';

/** Undefined where it could not be understood; then `work` says why. */
export function featureOf(work: Evaluation, entry: MapEntry): Feature | undefined {
  const map = entry.value;
  if (map?.type !== 'map') {
    const such = map ? '' : ' It has no value.';
    return work.fail(
      `A feature is a map that begins with its \`kind\`: ${listed(code(KINDS))}.${such}`,
      map?.span ?? entry.key.span,
    );
  }
  const kindNode = scalarAt(map, 'kind');
  const kind = KINDS.find((k) => k === kindNode?.value);
  if (!kind) return noKind(work, entry, map);
  const what = `${/^[aeiou]/.test(kind) ? 'An' : 'A'} ${kind}`;
  const faults = faultsOf(shapeOf(FEATURE_KINDS[kind].schema), map, what, entry.key.span);
  for (const f of faults) {
    const more = f.fixes ? { fixes: f.fixes } : {};
    if (f.breaks) work.fail(f.message, f.span, more);
    else work.remark(f.message, f.span, more);
  }
  if (work.broken) return undefined;
  const feature = FEATURE_KINDS[kind].resolve(work, headOf(entry, map), map);
  return work.broken ? undefined : feature;
}

function noKind(work: Evaluation, entry: MapEntry, map: MapNode): undefined {
  const node = scalarAt(map, 'kind');
  const kinds = listed(code(KINDS));
  if (!node || node.value === null) return work.fail(`A feature needs its \`kind\`: ${kinds}.`, entry.key.span);
  const word = String(node.value);
  const like = nearest(word, KINDS);
  const more = like ? { fixes: [replace(node.span, like)] } : {};
  return work.fail(`${quote(word)} is not a kind of feature. The kinds are ${kinds}.`, node.span, more);
}
