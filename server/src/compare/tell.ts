/** What a part says, a line for each thing, in one order and in millimetres: for a difference of two revisions, line by line. */
import { FACE_PLANE, type Feature, type Part } from '../model/model';
import { along, featureFacts } from './features';
import type { Facts, Reader } from './meaning';
import { partFacts, setupFacts } from './part';

export function partLines(part: Part): readonly string[] {
  const reader: Reader = { units: 'mm', nameOf: (name) => name };
  const lines = (facts: Facts, indent = '') => [...facts].map(([what, { shown }]) => `${indent}${what}: ${shown}`);
  const featureLines = (f: Feature) =>
    lines(new Map([...featureFacts(f, reader)].map(([what, fact]) => [along(what, FACE_PLANE[f.face]), fact])), '  ');
  const features = part.features.toSorted((a, b) => (a.name < b.name ? -1 : 1));
  return [
    ...lines(partFacts(part, reader)),
    ...features.flatMap((f) => [`${f.kind} ${f.name}`, ...featureLines(f)]),
    ...lines(setupFacts(part, reader)),
  ];
}
