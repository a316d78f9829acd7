/** The job's paper as Markdown: for a repository, a screen, or a printer that has nothing better. */

import { minutesText } from '../../report/cuts';
import { firstNames, hoursText } from '../../report/job-figures';
import { escapeMarkdown } from '../../text/markdown';
import { type Language, type Words, wordsOf } from '../language';
import { type JobPaper, MOST_SAVINGS } from './data';
import { barWords, buyWords, changeWords, orderWords, piecesWords, readyWords, sawWords, toolWords } from './words';

export function jobMarkdown(paper: JobPaper, language: Language): string {
  return `${coverLines(paper, wordsOf(language)).join('\n')}\n`;
}

export function coverLines(paper: JobPaper, words: Words): readonly string[] {
  return [
    `# ${escapeMarkdown(paper.job.name || words.job.job)}`,
    '',
    `**${words.markdown.caution}**`,
    '',
    ...sumLines(paper, words),
    ...partLines(paper, words),
    ...savingLines(paper, words),
    ...buyLines(paper, words),
    ...sawLines(paper, words),
    ...readyLines(paper, words),
    ...toolLines(paper, words),
    ...dayLines(paper, words),
  ];
}

function sumLines({ job, figures }: JobPaper, { job: said, part: { to } }: Words): string[] {
  const { mass_g: mass, machine_h: hours, pieces, parts, unread = [] } = figures;
  const limit = job.massLimitG?.value;
  const m = said.markdown;
  const against = (grams: number) => {
    if (limit === undefined) return '';
    const over = grams - limit;
    return `: ${over > 0 ? `**${m.over(over.toFixed(1))}**` : said.spare((-over).toFixed(1))}`;
  };
  return [
    `- ${said.sums(pieces, parts)}`,
    ...(unread.length > 0 ? [`- ${m.unread(firstNames(unread.map(escapeMarkdown)))}`] : []),
    ...(mass === null
      ? []
      : [`- ${said.mass(mass.toFixed(1), job.massLimitG && escapeMarkdown(job.massLimitG.text))}${against(mass)}`]),
    ...(hours && hours[1] > 0
      ? [`- ${m.hours(hoursText(hours, to), job.hours && String(Number(job.hours.value.toFixed(1))))}`]
      : []),
    '',
  ];
}

function partLines({ rows, figures }: JobPaper, { job: said, part: { to } }: Words): string[] {
  if (rows.length === 0) return [];
  const share = (grams: number) => (figures.mass_g ? ` (${((100 * grams) / figures.mass_g).toFixed(0)} %)` : '');
  const c = said.columns;
  return [
    `## ${said.markdown.takes}`,
    '',
    `| ${[c.part, said.pieces, c.one, c.all, c.setups, c.machine].join(' | ')} |`,
    '| --- | ---: | ---: | ---: | ---: | ---: |',
    ...rows.map((r) => {
      const all = r.grams === undefined ? undefined : r.grams * r.pieces;
      const order = r.order === 'planned' ? ` (${said.planned})` : r.order === 'rough' ? ` (${said.rough})` : '';
      return `| ${escapeMarkdown(r.name)} | ${r.pieces} | ${r.grams === undefined ? '' : `${r.grams.toFixed(1)} g`} | ${all === undefined ? '' : `${all.toFixed(1)} g${share(all)}`} | ${r.setups}${order} | ${r.machine ? minutesText(r.machine, to) : ''} |`;
    }),
    '',
  ];
}

/** For the joints. */
function buyLines({ bought }: JobPaper, { job: said }: Words): string[] {
  if (bought.length === 0) return [];
  const { what, joints } = said.columnsBought;
  return [
    `## ${said.markdown.fasteners}`,
    '',
    `| n | ${what} | ${joints} |`,
    '| ---: | --- | --- |',
    ...bought.map(
      (b) => `| ${b.count} | ${escapeMarkdown(said.bought(b.kind, b.name))} | ${escapeMarkdown(b.joints.join(', '))} |`,
    ),
    '',
  ];
}

function savingLines({ savings }: JobPaper, { job: said, part: { to } }: Words): string[] {
  if (savings.length === 0) return [];
  return [
    `## ${said.markdown.savings}`,
    '',
    ...savings
      .slice(0, MOST_SAVINGS)
      .map((s) => `- ${escapeMarkdown(s.part)}, ${minutesText(s.minutes, to)}: ${escapeMarkdown(s.message)}`),
    '',
  ];
}

function sawLines(paper: JobPaper, words: Words): string[] {
  const { job: said } = words;
  const { bars, job } = paper;
  if (bars.length === 0) return [];
  return [
    `## ${said.markdown.saw} (${sawWords(paper.job, said)})`,
    '',
    ...bars.flatMap((need) => [
      `### ${escapeMarkdown(piecesWords(need, words))}`,
      '',
      ...buyWords(need, paper, said).map((line) => `${line}  `),
      '',
      ...need.list.bars.map((bar) => `- [ ] ${barWords(bar, job.units, said)}`),
      '',
    ]),
  ];
}

function readyLines({ ready }: JobPaper, words: Words): string[] {
  if (ready.length === 0) return [];
  return [`## ${words.job.notSawn}`, '', ...ready.map((r) => `- [ ] ${escapeMarkdown(readyWords(r, words))}`), ''];
}

function toolLines({ tools, toolToBuy, job }: JobPaper, { job: said, part }: Words): string[] {
  if (tools.length === 0) return [];
  const listed = (names: readonly string[]) => names.map(escapeMarkdown).join(', ');
  const buy = toolToBuy && said.cures(toolToBuy.cures, listed(toolToBuy.parts));
  return [
    `## ${said.markdown.bring}`,
    '',
    ...tools.map((t) => `- [ ] ${escapeMarkdown(toolWords(t, job.units, part))}: ${listed(t.parts)}`),
    ...(toolToBuy ? [`- [ ] ${said.markdown.buy(escapeMarkdown(toolToBuy.what))} (${buy})`] : []),
    '',
  ];
}

function dayLines(paper: JobPaper, { job: said, part: { to } }: Words): string[] {
  const { day, job } = paper;
  if (day.steps.length === 0) return [];
  const { steps: c, markdown: m } = said;
  const evenings = job.evening ? ` (${m.evenings(day.evenings, job.evening.text)})` : '';
  const rows = day.steps.map(
    (s, i) =>
      `| ${i + 1} | ${job.evening ? `${s.evening} | ` : ''}${escapeMarkdown(s.setup.part)} | ${escapeMarkdown(s.setup.name)} | ${s.setup.pieces} | ${changeWords(s, said)} | ${minutesText(s.minutes, to)} |`,
  );
  const titles = [...(job.evening ? [m.evening] : []), c.part, c.setup, said.pieces, said.beforeIt, said.minutesHead];
  return [
    `## ${m.order}${evenings}`,
    '',
    said.orderNote,
    '',
    `| | ${titles.join(' | ')} |`,
    `| ---: | ${job.evening ? '---: | ' : ''}--- | --- | ---: | --- | ---: |`,
    ...rows,
    '',
    ...orderWords(paper, said).map(escapeMarkdown),
    '',
  ];
}
