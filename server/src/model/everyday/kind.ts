/** The kind of a feature in everyday words. */
import { entry, type MapNode } from '../../text/tree';
import { type FeatureKind, KINDS } from '../feature-kinds';
import { nearest, quote } from '../resolve/problem';
import { callOut } from './call-out';
import { plainWord } from './everyday-words';
import { EVERYDAY_KINDS } from './kind-words';
import { keyOf, type Reading } from './reading';

/** The kind that a feature's `kind` (or what stands in its place) names in everyday words. */
export function everydayKind(map: MapNode): { readonly kind: FeatureKind; readonly reading?: Reading } | undefined {
  return ofWord(map) ?? (holeIsCalledOut(map) ? { kind: 'hole' } : undefined);
}

/** `kind: M5`, `hole: Ø5 thru`: its fields tell it. */
function holeIsCalledOut(map: MapNode): boolean {
  const own = entry(map, 'kind');
  const found = own ? [own] : map.entries.filter((e) => HOLES.test(plainWord(keyOf(e))));
  return found.some(({ value }) => value?.type === 'scalar' && callOut(value.source, own !== undefined) !== undefined);
}
const HOLES = /^(?:hole|drill|bore|tap|ream|screw|bolt)$/;

function ofWord(map: MapNode): { readonly kind: FeatureKind; readonly reading: Reading } | undefined {
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
