/** A comparison as Markdown: for the text of a pull request. */
import { escapeMarkdown, messageMarkdown } from '../text/markdown';
import { type Section, sectionsOf } from './entries';
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
    ...sectionsOf(compared).flatMap(({ title, entries }) => [`### ${title}`, '', ...entries.map(lineOf), '']),
  ];
}

/** What is said of the line above it stands in that one's list; names in backticks stay what they are. */
function lineOf({ word, text }: Section['entries'][number]): string {
  const own = text.trimStart();
  const deep = ' '.repeat(text.length - own.length);
  return `${deep}- ${word === undefined ? '' : `**${word}** `}${messageMarkdown(own)}`;
}
