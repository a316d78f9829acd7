/** What can be held and cut in a set-up, and how deep a thread goes: values made of the part and the shop. */
import { FACES, type Face, type Feature, type Part } from '../model/model';
import type { Shop } from '../model/shop-model';
import { findThread } from '../tables/thread-names';
import { formatLength, writeLength } from '../text/format';
import { scalarAt, type TextNode } from '../text/tree';
import { CompletionItemKind } from './shapes';
import { jawPairs } from './skeletons';
import type { Suggestion } from './suggestion';

const value = (label: string, detail: string): Suggestion => ({ label, detail, kind: CompletionItemKind.Value });

/** Of the value that a path ends in; `entry` is the feature or set-up it is in, be it half written. */
export function setupSuggestions(
  part: Part,
  shop: Shop | undefined,
  path: readonly string[],
  entry: TextNode | undefined,
): readonly Suggestion[] {
  const key = path.at(-1);
  if (path[0] === 'features')
    return key === 'thread-depth' ? threadDepths(part, scalarAt(entry, 'thread')?.source) : [];
  if (path[0] !== 'setups') return [];
  const up = FACES.find((f) => f === scalarAt(entry, 'up')?.value) ?? 'top';
  if (key === 'jaws') return jawPairs(up).map((pair) => value(`[${pair.join(', ')}]`, jawsText(part, shop, pair)));
  if (key === 'cuts') return cutsOf(part, path[1], up);
  return key === 'grip' ? grips(part, shop, up) : [];
}

const sizeAlong = (part: Part, face: Face) => part.size[Math.floor(FACES.indexOf(face) / 2)]!;

function jawsText(part: Part, shop: Shop | undefined, [first]: readonly [Face, Face]): string {
  const mm = sizeAlong(part, first);
  const vise = shop?.vises[0];
  const fits = vise
    ? mm <= vise.opensMm
      ? `, within the ${formatLength(vise.opensMm, part.units)} of ${vise.name}`
      : `, more than ${vise.name} opens`
    : '';
  return `${formatLength(mm, part.units)} between the jaws${fits}`;
}

/** All that is cut from this side and in no other set-up. */
function cutsOf(part: Part, setup: string | undefined, up: Face): readonly Suggestion[] {
  const elsewhere = new Set(
    (part.setups ?? []).filter((s) => s.name !== setup).flatMap((s) => s.cuts.map((c) => c.name)),
  );
  const free = part.features.filter((f) => !elsewhere.has(f.name));
  const here = free.filter((f) => isFrom(f, up));
  const lists = [...(here.length > 0 ? [here] : []), ...(free.length > here.length ? [free] : [])];
  return lists.map((list) =>
    value(
      `[${list.map((f) => f.name).join(', ')}]`,
      list === here ? `what is cut from ${up}` : 'everything that no other set-up cuts',
    ),
  );
}

function isFrom(feature: Feature, up: Face): boolean {
  if ('edges' in feature)
    return feature.edges.some((e) => (e.type === 'face' ? e.face === up : e.type === 'edge' && e.faces.includes(up)));
  return feature.face === up;
}

/** As deep in the jaws as parallels of the shop leave it; at most half of what stands up is asked for. */
function grips(part: Part, shop: Shop | undefined, up: Face): readonly Suggestion[] {
  const vise = shop?.vises[0];
  if (!vise) return [];
  const height = sizeAlong(part, up);
  const heights = [...new Set((shop?.parallelsMm ?? []).map((mm) => vise.jawHeightMm - mm))];
  return heights
    .filter((mm) => mm >= 3 && mm <= height / 2)
    .sort((a, b) => a - b)
    .map((mm) =>
      value(
        writeLength(mm, part.units),
        `on parallels of ${formatLength(vise.jawHeightMm - mm, part.units)} in ${vise.name}`,
      ),
    );
}

/** One and a half to two and a half diameters: more turns hold nothing (common practice, no source). */
function threadDepths(part: Part, designation = ''): readonly Suggestion[] {
  const thread = findThread(designation);
  if (!thread) return [];
  return [1.5, 2, 2.5].map((times) =>
    value(
      writeLength(Number((times * thread.diameterMm).toFixed(1)), part.units),
      `${times} × the diameter of ${thread.designation}`,
    ),
  );
}
