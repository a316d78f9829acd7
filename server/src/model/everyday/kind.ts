/** The kind of a feature in everyday words. */
import { entry, type MapNode } from '../../text/tree';
import { type FeatureKind, KINDS } from '../feature-kinds';
import { nearest, quote } from '../resolve/problem';
import { EVERYDAY_KINDS, plainWord } from './everyday-words';
import { keyOf, type Reading } from './reading';

/** The kind that a feature's `kind` (or what stands in its place) names in everyday words. */
export function everydayKind(map: MapNode): { readonly kind: FeatureKind; readonly reading: Reading } | undefined {
  const own = entry(map, 'kind');
  const found = own ?? map.entries.find((e) => ['type', 'feature', 'shape', 'what', 'is', 'art'].includes(keyOf(e)));
  if (found?.value?.type !== 'scalar' || found.value.value === null) return undefined;
  const word = plainWord(String(found.value.value));
  const plain = KINDS.find((k) => k === word || `${k}s` === word || `${k}es` === word);
  const meant = plain ? { kind: plain, means: '' } : EVERYDAY_KINDS.get(word);
  const like = meant?.kind ?? KINDS.find((k) => k === nearest(word, KINDS));
  if (!like) return undefined;
  const edits = [
    ...(own ? [] : [{ span: found.key.span, newText: 'kind' }]),
    ...(found.value.value === like ? [] : [{ span: found.value.span, newText: like }]),
  ];
  const what = `${/^[aeiou]/.test(like) ? 'an' : 'a'} ${like}`;
  const isOther = plain !== undefined && nearest(String(found.value.value).toLowerCase(), [plain]) === undefined;
  const said = isOther
    ? `${quote(found.value.source)} is ${what} here. Write \`kind: ${like}\`.`
    : meant?.means
      ? `${quote(found.value.source)} is ${what} here, ${meant.means}.`
      : own
        ? `${quote(found.value.source)} is no kind of feature. Did you mean \`${like}\`?`
        : `The kind of this feature is missing. Write \`kind: ${like}\`.`;
  const reading = {
    message: said,
    entries: [found],
    gives: ['kind'],
    fixes: [{ title: `Write \`kind: ${like}\``, edits }],
  };
  return { kind: like, reading };
}
