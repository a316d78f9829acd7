/** What a name is that a document mentions. */
import { code, escapeMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import { featureText } from './feature-text';
import { mentionAt } from './mentioned';
import type { Snapshot } from './snapshot';
import { toolText } from './suggestions';

/** What a name is, in a line: for hovers. */
export function describeName(snapshot: Snapshot, cursor: Cursor): string | undefined {
  if (!cursor.scalar || snapshot.kind === 'job' || snapshot.kind === 'record') return undefined;
  const { start } = snapshot.checked.tree.locate(cursor.scalar.span);
  const mention = mentionAt(snapshot, start);
  if (!mention || mention.definition) return undefined;
  const { shop } = snapshot.checked;
  if (mention.kind === 'tool') {
    const tool = shop.tools.find((t) => t.name === mention.name);
    return tool && `${code(tool.name)}: ${escapeMarkdown(toolText(tool))}`;
  }
  if (mention.kind === 'feature' && snapshot.kind === 'part') {
    const feature = snapshot.checked.part.featureByName.get(mention.name);
    return feature && `${code(feature.name)}: ${escapeMarkdown(featureText(feature, snapshot.checked.part))}`;
  }
  return undefined;
}
