/** What the status bar's figures say when the pointer rests on them: each with how it comes about, in lines that wrap between words. */
import type { Figure } from '../../server/src/report/at-hand';
import { escapeMarkdown } from '../../server/src/text/markdown';

/** As Markdown. (The editor's own `appendText` binds all words of a line together, and then breaks them anywhere.) */
export function figuresTip(figures: readonly Figure[]): string {
  return figures
    .map(({ name, value, how }) => `**${escapeMarkdown(name)}**: ${escapeMarkdown(value)}  \n${escapeMarkdown(how)}`)
    .join('\n\n');
}
