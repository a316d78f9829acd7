/** A job's sheets as Markdown: its cover, then every part's own, in the order in which the day comes to them. */
import { ExportError } from '../../export/writer';
import { escapeMarkdown } from '../../text/markdown';
import { type Language, wordsOf } from '../language';
import { sheetLines } from '../markdown';
import { coverLines } from './markdown';
import { type JobRequest, partsInOrder } from './printed';

interface Sheets {
  readonly text: string;
  /** What the user should know of each: a sentence. */
  readonly notes: readonly string[];
}

export function jobSheets({ paper, parts, ...request }: JobRequest, language: Language): Sheets {
  const words = wordsOf(language);
  const { markdown } = words;
  const notes: string[] = [];
  const lines = [
    ...coverLines(paper, words),
    markdown.from(escapeMarkdown(request.file), request.mark, request.when.toISOString().slice(0, 10), request.creator),
    '',
  ];
  for (const [name, part] of partsInOrder(paper, parts)) {
    try {
      const sheet = sheetLines({ ...request, ...part }, language);
      lines.push('', ...sheet.lines, '');
      notes.push(...sheet.notes.map((note) => `${name}: ${note}`));
    } catch (error) {
      if (!(error instanceof ExportError)) throw error;
      lines.push('', `# ${escapeMarkdown(name)}`, '', `**${words.part.rough}**`, '');
      notes.push(`${name}: ${error.message}`);
    }
  }
  return {
    text: `${lines
      .join('\n')
      .replace(/\n{3,}/g, '\n\n')
      .trimEnd()}\n`,
    notes,
  };
}
