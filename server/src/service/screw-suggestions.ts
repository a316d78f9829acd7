/** Threads, clearance holes and screws to pick from, each with the sizes that it stands for. */

import type { Units } from '../model/model';
import type { Shop } from '../model/shop-model';
import { clearanceHole, clearanceSizes, fitText } from '../tables/clearance';
import { counterboreFor, countersinkFor, screwSizes } from '../tables/heads';
import { formOf } from '../tables/thread-form';
import { THREADS, threadPercent } from '../tables/threads';
import { formatLength } from '../text/format';
import { CompletionItemKind } from './shapes';
import type { Suggestion } from './suggestion';

const value = (label: string, detail: string): Suggestion => ({ label, detail, kind: CompletionItemKind.Value });

/** A numbered size stands in quotes: a bare `#` would begin a comment. */
const written = (screw: string) => (screw.startsWith('#') ? `"${screw}"` : screw);
/** Sizes of the document's own system first. */
const ofUnits = (sizes: readonly string[], units: Units) =>
  [...sizes].sort(
    (a, b) => Number(b.startsWith('M') === (units === 'mm')) - Number(a.startsWith('M') === (units === 'mm')),
  );

/** Threads, those with a tap on hand first. */
export function threadSuggestions(shop: Shop | undefined): Suggestion[] {
  const taps = new Map(shop?.tools.flatMap((t) => (t.kind === 'tap' ? [[t.thread, t.name] as const] : [])));
  return [...THREADS]
    .sort((a, b) => Number(taps.has(b.designation)) - Number(taps.has(a.designation)))
    .map((t) => {
      const tap = taps.get(t.designation);
      const share = formOf(t).name === 'cone' ? '' : ` (${Math.round(threadPercent(t, t.tapDrillMm))} % of thread)`;
      return value(
        t.designation,
        `pitch ${Number(t.pitchMm.toFixed(3))} mm, tap drill ${Number(t.tapDrillMm.toFixed(3))} mm${share}${tap ? `, tap in the shop: ${tap}` : ', no tap in the shop'}`,
      );
    });
}

/** `M5`, and each size with its close and loose fit after all the normal ones. */
export function clearanceSuggestions(units: Units): Suggestion[] {
  const sizes = ofUnits(clearanceSizes(), units);
  return (['medium', 'fine', 'coarse'] as const).flatMap((fit) =>
    sizes.flatMap((size) => {
      const hole = clearanceHole(size, fit);
      if (!hole) return [];
      const word = fit === 'medium' ? '' : fit === 'fine' ? ' close' : ' loose';
      const label = size.startsWith('#') ? `"${size}${word}"` : `${size}${word}`;
      return [value(label, `${formatLength(hole.diameterMm, units)}, ${fitText(hole)}`)];
    }),
  );
}

/** Screws whose head has a recess of this kind. */
export function recessSuggestions(type: 'cap' | 'flat', units: Units): Suggestion[] {
  const size = (mm: number) => formatLength(mm, units);
  return ofUnits(screwSizes(), units).flatMap((screw) => {
    const bore = type === 'cap' ? counterboreFor(screw) : undefined;
    const sink = type === 'flat' ? countersinkFor(screw) : undefined;
    if (bore) return [value(written(screw), `diameter ${size(bore.diameterMm)}, ${size(bore.depthMm)} deep`)];
    return sink ? [value(written(screw), `diameter ${size(sink.diameterMm)}, ${sink.angleDeg}°`)] : [];
  });
}
