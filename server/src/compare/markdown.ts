/** A comparison as Markdown: for the text of a pull request. */
import { escapeMarkdown } from '../text/markdown';
import type { ComparedPart } from './json';
import { differenceText, featureLine, figureText, todayTexts, verdict } from './lines';
import { touchedLines } from './touches';

export function changeMarkdown({ path, change, today, touches = [] }: ComparedPart): readonly string[] {
  const { part, features, setups, figures, findings } = change;
  const { raised, cured, kept, accepted, takenBack } = findings;
  const item = (text: string) => `- ${escapeMarkdown(text)}`;
  const section = (title: string, lines: readonly string[]) =>
    lines.length > 0 ? [`### ${title}`, '', ...lines, ''] : [];
  return [
    `## ${escapeMarkdown(path)}: ${verdict(change)}`,
    '',
    ...section(
      'Part',
      part.map((d) => item(differenceText(d))),
    ),
    ...section(
      'Features',
      features.map((f) => {
        const { word, text } = featureLine(f);
        return `- **${word}** ${escapeMarkdown(text)}`;
      }),
    ),
    ...section(
      'Set-ups',
      setups.map((d) => item(differenceText(d))),
    ),
    ...section(
      'Figures',
      figures.map((f) => item(figureText(f))),
    ),
    ...section('Findings', [
      ...raised.map((f) => `- **new ${f.severity}** ${f.rule}: ${escapeMarkdown(f.message)}`),
      ...cured.map((f) => `- **cured** ${f.rule}: ${escapeMarkdown(f.message)}`),
      ...(kept.length > 0 && raised.length + cured.length > 0 ? [`- ${kept.length} as before`] : []),
      ...accepted.map((a) => item(`accepts ${a.rule}${a.of ? ` of ${a.of}` : ''}: ${a.because ?? 'no reason given'}`)),
      ...takenBack.map((a) => item(`no longer accepts ${a.rule}${a.of ? ` of ${a.of}` : ''}`)),
      ...todayTexts(today).map(item),
    ]),
    ...section('Touches', touchedLines(touches).map(item)),
  ];
}
