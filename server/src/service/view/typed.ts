/** What a person types over a size in the picture: its unit and its tolerance stay unless others are typed, and it is read before it is offered. */
import { checkPart } from '../../rules/check';
import { applyEdits } from '../../text/edit';
import { isElsewhere } from '../../text/tree';
import { typedOver } from '../../text/typed-over';
import { scalarText } from '../../text/write';
import { rangeOf } from '../lsp';
import type { JobRead, PartSnapshot } from '../snapshot';
import { metSizes } from './meets';
import type { PictureSize, PictureSizes, TypedAnswer, TypedRequest } from './protocol';
import { sizesOf } from './sizes';

/** Null where there is no such feature. */
/** `jobs`: that make the part; what the feature meets there is told beside its sizes. */
export function sizesAnswer(
  snapshot: PartSnapshot,
  name: string,
  version: number,
  jobs: readonly JobRead[] = [],
): PictureSizes | null {
  const { part, solid } = snapshot.checked;
  const feature = part.featureByName.get(name);
  if (!feature) return null;
  const sizes = sizesOf(feature, part, solid).map(({ what, text, at, span }): PictureSize => {
    if (!span) return { what, text, at };
    const { start, end } = snapshot.checked.tree.locate(span);
    return { what, text, at, range: rangeOf(snapshot, span), typed: snapshot.text.slice(start, end) };
  });
  return { feature: name, version, sizes: [...sizes, ...metSizes(snapshot, name, jobs)] };
}

const GONE = 'The text was changed meanwhile: choose the size again.';

/** The edit of what is written, or why it is none. Null where there is no such size. */
export function typedAnswer(
  snapshot: PartSnapshot,
  asked: TypedRequest,
  version: number | undefined,
): TypedAnswer | null {
  const { checked } = snapshot;
  const feature = checked.part.featureByName.get(asked.feature);
  const size = feature && sizesOf(feature, checked.part, checked.solid)[asked.size];
  if (version !== asked.version) return { why: GONE };
  if (!size) return null;
  if (!size.span) return { why: `Its ${size.what} follows from something else: it is not written.` };
  if (feature?.included && isElsewhere(size.span))
    return { why: `It stands in ${feature.included.file}. Change it there.` };
  const place = checked.tree.locate(size.span);
  const written = snapshot.text.slice(place.start, place.end);
  const plain = /^(["'])(.*)\1$/.exec(written)?.[2] ?? written;
  const value = typedOver(plain, asked.text);
  if (value === '') return { why: 'Type a size: a number, with its unit and tolerance where it has them.' };
  const newText = scalarText(value);
  const read = checkPart(applyEdits(snapshot.text, [{ ...place, newText }]), checked.shop, checked).reading;
  const before = new Set(checked.reading.problems.map((f) => f.message));
  const wrong = read.problems.find((f) => !before.has(f.message));
  if (wrong) return { why: wrong.message };
  return { range: rangeOf(snapshot, size.span), newText, version: asked.version };
}
