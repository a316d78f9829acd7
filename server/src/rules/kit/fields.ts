/** Fields of a feature set, renamed or taken out by key, in the author's way of writing. */

import { setText } from '../../text/edit';
import type { MapNode, TextTree } from '../../text/tree';
import { featureNode, nodeAt, removeEntry } from './edits';
import type { SpanEdit } from './rule';

/**
 * `key: text` in a feature's map, or in a map inside it (`path`): replaced where it stands, filled in after
 * a lone colon, added where it does not. Undefined where there is no such map.
 */
export function setField(
  tree: TextTree,
  feature: string,
  key: string,
  text: string,
  ...path: readonly (string | number)[]
): readonly SpanEdit[] | undefined {
  const map = mapOf(tree, feature, path);
  const edits = map ? setText(tree, map, key, text) : [];
  return edits.length > 0 ? edits : undefined;
}

/** Takes a field out; a comment on its line stays. */
export function removeField(tree: TextTree, feature: string, key: string): readonly SpanEdit[] | undefined {
  const map = featureNode(tree, feature);
  const entry = map?.entries.find((e) => e.key.source === key);
  return map && entry && map.entries.length > 1 ? removeEntry(tree, map, entry) : undefined;
}

/** Writes another name for a field, its value staying as it is. */
export function renameField(tree: TextTree, feature: string, key: string, to: string): readonly SpanEdit[] | undefined {
  const entry = featureNode(tree, feature)?.entries.find((e) => e.key.source === key);
  return entry && [{ span: entry.key.span, newText: to }];
}

/** The edits of several steps as one; undefined where a step could not be made. */
export function together(
  ...steps: readonly (readonly SpanEdit[] | SpanEdit | undefined)[]
): readonly SpanEdit[] | undefined {
  const all: SpanEdit[] = [];
  for (const step of steps) {
    if (!step) return undefined;
    all.push(...(Array.isArray(step) ? step : [step as SpanEdit]));
  }
  return all;
}

function mapOf(tree: TextTree, feature: string, path: readonly (string | number)[]): MapNode | undefined {
  const node = path.length === 0 ? featureNode(tree, feature) : nodeAt(tree, feature, ...path);
  return node?.type === 'map' ? node : undefined;
}
