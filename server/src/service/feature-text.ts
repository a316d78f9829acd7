/** What a feature is, in a line: for lists and hovers. */
import type { Feature, Part } from '../model/model';
import { formatLength } from '../text/format';

/** One line on a feature: `hole on top, 22 mm, 7 mm deep`. */
export function featureText(feature: Feature, part: Part): string {
  const words = [`${feature.kind} on ${feature.face}`];
  if (feature.kind === 'hole') words.push(feature.thread?.designation ?? formatLength(feature.diameter.mm, part.units));
  if ('depth' in feature && feature.depth)
    words.push(feature.depth.through ? 'through' : `${formatLength(feature.depth.mm, part.units)} deep`);
  if (feature.places.length > 1) words.push(`${feature.places.length} of them`);
  return words.join(', ');
}
