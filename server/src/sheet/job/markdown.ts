/** The job's paper as Markdown: for a repository, a screen, or a printer that has nothing better. */

import { minutesText } from '../../report/cuts';
import { hoursText } from '../../report/job-figures';
import { escapeMarkdown } from '../../text/markdown';
import { CAUTION } from '../words';
import type { JobPaper } from './data';
import { barWords, buyWords, changeWords, savedWords } from './words';

export function jobMarkdown(paper: JobPaper): string {
  const lines = [
    `# ${escapeMarkdown(paper.job.name || 'Job')}`,
    '',
    `**${CAUTION}**`,
    '',
    ...sumLines(paper),
    ...partLines(paper),
    ...savingLines(paper),
    ...sawLines(paper),
    ...toolLines(paper),
    ...dayLines(paper),
  ];
  return `${lines.join('\n')}\n`;
}

function sumLines({ job, figures }: JobPaper): string[] {
  const { mass_g: mass, machine_h: hours, pieces, parts, unread = [] } = figures;
  const limit = job.massLimitG?.value;
  const over = mass !== null && limit !== undefined ? mass - limit : undefined;
  return [
    `- ${pieces} pieces of ${parts} parts`,
    ...(unread.length > 0 ? [`- without ${unread.map(escapeMarkdown).join(', ')}: could not be read`] : []),
    ...(mass === null
      ? []
      : [
          `- ${mass.toFixed(1)} g${limit === undefined ? '' : ` of ${escapeMarkdown(job.massLimitG!.text)}: ${over! > 0 ? `**${over!.toFixed(1)} g too much**` : `${(-over!).toFixed(1)} g to spare`}`}`,
        ]),
    ...(hours && hours[1] > 0
      ? [`- ${hoursText(hours)} at the machine${job.hours ? ` of ${Number(job.hours.value.toFixed(1))} h` : ''}`]
      : []),
    '',
  ];
}

function partLines({ rows, figures }: JobPaper): string[] {
  if (rows.length === 0) return [];
  const share = (grams: number) => (figures.mass_g ? ` (${((100 * grams) / figures.mass_g).toFixed(0)} %)` : '');
  return [
    '## What each part takes',
    '',
    '| part | pieces | one | all | set-ups | at the machine |',
    '| --- | ---: | ---: | ---: | ---: | ---: |',
    ...rows.map((r) => {
      const all = r.grams === undefined ? undefined : r.grams * r.pieces;
      const order = r.order === 'written' || !r.order ? '' : ` (${r.order})`;
      return `| ${escapeMarkdown(r.name)} | ${r.pieces} | ${r.grams === undefined ? '' : `${r.grams.toFixed(1)} g`} | ${all === undefined ? '' : `${all.toFixed(1)} g${share(all)}`} | ${r.setups}${order} | ${r.machine ? minutesText(r.machine) : ''} |`;
    }),
    '',
  ];
}

function savingLines({ savings }: JobPaper): string[] {
  if (savings.length === 0) return [];
  return [
    '## Where most can be saved',
    '',
    ...savings
      .slice(0, MOST_SAVINGS)
      .map((s) => `- ${escapeMarkdown(s.part)}, ${minutesText(s.minutes)}: ${escapeMarkdown(s.message)}`),
    '',
  ];
}
const MOST_SAVINGS = 5;

function sawLines({ bars, job, currency }: JobPaper): string[] {
  if (bars.length === 0) return [];
  const { kerfMm, clampMm, trimMm } = job.saw;
  const saw = [
    `kerf ${kerfMm} mm`,
    ...(clampMm > 0 ? [`the saw holds ${clampMm} mm`] : []),
    ...(trimMm > 0 ? [`${trimMm} mm off the first end`] : []),
  ].join(', ');
  return [
    `## Saw (${saw})`,
    '',
    ...bars.flatMap((need) => [
      `### ${need.pieces} piece${need.pieces === 1 ? '' : 's'} from ${escapeMarkdown(need.what)}`,
      '',
      ...buyWords(need, job.units, currency).map((line) => `${line}  `),
      '',
      ...need.list.bars.map((bar) => `- [ ] ${barWords(bar, job.units)}`),
      '',
    ]),
  ];
}

function toolLines({ tools, toolToBuy }: JobPaper): string[] {
  if (tools.length === 0) return [];
  return [
    '## Bring',
    '',
    ...tools.map((t) => `- [ ] ${escapeMarkdown(t.name)}: ${t.parts.map(escapeMarkdown).join(', ')}`),
    ...(toolToBuy
      ? [
          `- [ ] to buy: ${escapeMarkdown(toolToBuy.what)} (cures ${toolToBuy.cures} finding${toolToBuy.cures === 1 ? '' : 's'} in ${toolToBuy.parts.map(escapeMarkdown).join(', ')})`,
        ]
      : []),
    '',
  ];
}

function dayLines(paper: JobPaper): string[] {
  const { day, job } = paper;
  if (day.steps.length === 0) return [];
  const evenings = job.evening ? ` (${day.evenings} of ${job.evening.text})` : '';
  const rows = day.steps.map(
    (s, i) =>
      `| ${i + 1} | ${job.evening ? `${s.evening} | ` : ''}${escapeMarkdown(s.setup.part)} | ${escapeMarkdown(s.setup.name)} | ${s.setup.pieces} | ${changeWords(s)} | ${minutesText(s.minutes)} |`,
  );
  return [
    `## In this order${evenings}`,
    '',
    'All pieces of a set-up before the next one. What is not named to change stays as it is; a zero that stays is not touched again, only its number is entered.',
    '',
    job.evening
      ? '| | evening | part | set-up | pieces | before it | minutes |\n| ---: | ---: | --- | --- | ---: | --- | ---: |'
      : '| | part | set-up | pieces | before it | minutes |\n| ---: | --- | --- | ---: | --- | ---: |',
    ...rows,
    '',
    ...savedWords(paper),
    ...(day.proven ? [] : ['There are too many orders to look at all of them: a better one may exist.']),
    ...(day.tooLong.length > 0 ? [`Longer than an evening: ${day.tooLong.map(escapeMarkdown).join(', ')}.`] : []),
    '',
  ];
}
