/** What an entry of `include` brings, for the pointer on it. */
import { code, escapeMarkdown } from '../text/markdown';
import type { Cursor } from './cursor';
import { featureText } from './feature-text';
import type { PartSnapshot } from './snapshot';

/** On an entry of `include`: what it brings. */
export function includeText({ checked: { part } }: PartSnapshot, { path }: Cursor): string[] {
  const [section, by, field] = path;
  if (section !== 'include' || (field !== undefined && field !== 'from')) return [];
  const lines = part.features.flatMap((f) => {
    const { included } = f;
    if (!included || included.by !== by) return [];
    const was = included.name === f.name ? '' : ` (${code(included.name)} there)`;
    return [`- ${code(f.name)}${was}: ${escapeMarkdown(featureText(f, part))}`];
  });
  return lines.length > 0 ? [lines.join('\n')] : [];
}
