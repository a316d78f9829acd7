/** A comparison as Markdown: for the text of a pull request. */
import { escapeMarkdown } from '../text/markdown';
import { sectionsOf } from './entries';
import type { ComparedPart } from './json';
import { verdict } from './lines';

/** `pictures`: of the views, by their names as this page finds them. */
export function changeMarkdown(
  compared: ComparedPart,
  pictures: readonly { readonly title: string; readonly file: string }[] = [],
): readonly string[] {
  return [
    `## ${escapeMarkdown(compared.path)}: ${verdict(compared.change)}`,
    '',
    ...pictures.flatMap(({ title, file }) => [`![${escapeMarkdown(title)}](<${encodeURI(file)}>)`, '']),
    ...sectionsOf(compared).flatMap(({ title, entries }) => [
      `### ${title}`,
      '',
      ...entries.map(({ word, text }) => `- ${word === undefined ? '' : `**${word}** `}${escapeMarkdown(text)}`),
      '',
    ]),
  ];
}
