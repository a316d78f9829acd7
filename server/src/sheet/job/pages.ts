/** A job's cover: what it weighs and takes, what to buy and how to saw it, what to bring, the order of the day. */

import type { DayStep } from '../../planning/day-plan/types';
import { minutesText } from '../../report/cuts';
import { firstNames, hoursText } from '../../report/job-figures';
import { type Figure, moved } from '../draw/marks';
import { column, framed, table } from '../draw/stack';
import { bold, type Inline, LARGE, NUMBER, textFigure } from '../draw/text';
import { caution, FOOT_H, foot, head } from '../furniture';
import type { SheetWords } from '../language/en';
import type { JobWords } from '../language/job-en';
import { FIELD, type Page } from '../page';
import { needFigures, readyFigures } from './bars-figure';
import { type JobPaper, MOST_SAVINGS } from './data';
import { orderWords, sawWords, toolWords } from './words';

const GAP = 3;
const PAD = 1.5;
const RIGHT_W = 62;

interface CoverOf {
  readonly paper: JobPaper;
  readonly file: string;
  readonly mark: string;
  readonly when: Date;
  readonly words: SheetWords;
  readonly said: JobWords;
}

/** Numbered A1, A2, …: the parts' own sheets follow with their own numbers. */
export function coverPages(of: CoverOf): readonly Page[] {
  const { words, file, mark, when } = of;
  const heading = headFigure(of);
  const warn = caution([bold(words.caution), ' ', words.shopFirst]);
  const room = FIELD.h - FOOT_H - heading.h - warn.h - 3 * GAP;
  const pages = flowed(blocksOf(of), orderFigures(of), room);
  return pages.map((body, i) => ({
    number: `A${i + 1}`,
    marks: [
      ...heading.marks,
      ...moved(body.marks, 0, heading.h + GAP),
      ...moved(warn.marks, 0, FIELD.h - FOOT_H - warn.h - 1),
      ...foot(file, ` · ${words.date(when)}, ${mark}`, words.voidIf, bold(`A${i + 1} / A${pages.length}`)),
    ],
  }));
}

/** Blocks below each other, a new page where one does not fit any more. What is hung up, `whole`, stays on one page where it can. */
function flowed(blocks: readonly Figure[], whole: readonly Figure[], room: number): readonly Figure[] {
  const pages: Figure[][] = [[]];
  const one = column(whole, GAP);
  for (const block of [...blocks, ...(one.h > 0 && one.h <= room ? [one] : whole)]) {
    const page = pages.at(-1)!;
    if (page.length > 0 && column([...page, block], GAP).h > room) pages.push([block]);
    else page.push(block);
  }
  return pages.map((page) => column(page, GAP));
}

function headFigure({ paper, said, words: { to } }: CoverOf): Figure {
  const { job, figures } = paper;
  const limit = job.massLimitG;
  const mass = figures.mass_g;
  const spare = mass === null || limit === undefined ? undefined : limit.value - mass;
  const hours = figures.machine_h;
  const right: Inline[] = [
    ...(mass === null ? [] : [said.mass(mass.toFixed(1), limit?.text)]),
    ...(spare === undefined ? [] : [spare >= 0 ? said.spare(spare.toFixed(1)) : bold(said.over((-spare).toFixed(1)))]),
    ...(hours && hours[1] > 0
      ? [said.hours(hoursText(hours, to).replace(/ h$/, ''), job.hours && String(Number(job.hours.value.toFixed(1))))]
      : []),
  ];
  const width = FIELD.w - RIGHT_W - 2 * PAD;
  const left = [
    textFigure([bold(job.name || said.job, LARGE)], { width }),
    textFigure(said.sums(figures.pieces, figures.parts), { cap: NUMBER, width }),
    ...(figures.unread ? [textFigure(bold(said.unread(firstNames(figures.unread))), { width })] : []),
  ];
  return head(left, right, RIGHT_W);
}

function blocksOf(of: CoverOf): readonly Figure[] {
  const { paper, said } = of;
  return [
    partsFigure(of),
    ...(paper.savings.length > 0 ? [savingsFigure(of)] : []),
    ...(paper.bought.length > 0 ? [boughtFigure(of)] : []),
    ...(paper.bars.length > 0 ? [textFigure([bold(said.saw, NUMBER), ` (${sawWords(paper.job, said)})`])] : []),
    ...paper.bars.flatMap((need) => needFigures(need, paper, { job: said, part: of.words }, FIELD.w)),
    ...readyFigures(paper.ready, { job: said, part: of.words }, FIELD.w),
    ...(paper.tools.length > 0 ? [bringFigure(of)] : []),
  ];
}

function partsFigure({ paper, said, words: { to } }: CoverOf): Figure {
  const { rows, figures } = paper;
  const c = said.columns;
  const share = (grams: number) => (figures.mass_g ? ` (${((100 * grams) / figures.mass_g).toFixed(0)} %)` : '');
  const titles = [c.part, c.pieces, c.one, c.all, c.setups, c.machine].map((text) => ({ text: bold(text) }));
  const cells = rows.map((r) => [
    { text: bold(r.name) },
    { text: String(r.pieces) },
    { text: r.grams === undefined ? '' : `${r.grams.toFixed(1)} g` },
    { text: r.grams === undefined ? '' : `${(r.grams * r.pieces).toFixed(1)} g${share(r.grams * r.pieces)}` },
    {
      text: `${r.setups}${r.order === 'planned' ? `, ${said.planned}` : r.order === 'rough' ? `, ${said.rough}` : ''}`,
    },
    { text: r.machine ? minutesText(r.machine, to) : '' },
  ]);
  const widths = [{ w: 50 }, { w: 10 }, { w: 24 }, { w: 34 }, { w: 30 }, { w: 32 }];
  return column([textFigure(bold(said.takes)), table(widths, [titles, ...cells])], 1);
}

function savingsFigure({ paper, said, words: { to } }: CoverOf): Figure {
  const lines = paper.savings
    .slice(0, MOST_SAVINGS)
    .map((s) => textFigure([bold(`${s.part}, ${minutesText(s.minutes, to)}: `), s.message], { width: FIELD.w }));
  return column([textFigure(bold(said.savings)), ...lines], 0.8);
}

function boughtFigure({ paper, said }: CoverOf): Figure {
  const cells = paper.bought.map((b) => [
    { text: `☐ ${b.count}` },
    { text: bold(said.bought(b.kind, b.name)) },
    { text: b.joints.join(', ') },
  ]);
  return column([textFigure(bold(said.fasteners)), table([{ w: 14 }, { w: 70 }, { w: 96 }], cells)], 1);
}

function bringFigure({ paper, said, words }: CoverOf): Figure {
  const abreast = 3;
  const w = (FIELD.w - 2 * PAD) / abreast;
  const tools = [
    ...paper.tools.map((t) => `☐ ${toolWords(t, paper.job.units, words)}`),
    ...(paper.toolToBuy ? [`☐ ${said.buy(paper.toolToBuy.what)}`] : []),
  ].map((text) => textFigure(text, { width: w - 2 }));
  const long = Math.ceil(tools.length / abreast);
  const columns = Array.from({ length: abreast }, (_, i) => column(tools.slice(i * long, (i + 1) * long)));
  const inside: Figure = {
    marks: columns.flatMap((f, i) => moved(f.marks, i * w, 0)),
    w: FIELD.w - 2 * PAD,
    h: Math.max(...columns.map((f) => f.h)),
  };
  return framed(column([textFigure(bold(said.bring)), inside], 1), FIELD.w, { pad: PAD });
}

/** A table an evening; all in one where evenings have no length. */
function orderFigures(of: CoverOf): readonly Figure[] {
  const { paper, said } = of;
  const { day, job } = paper;
  if (day.steps.length === 0) return [];
  const intro = column([
    textFigure(bold(said.order, NUMBER)),
    textFigure(said.orderNote, { width: FIELD.w }),
    ...orderWords(paper, said).map((text) => textFigure(text, { width: FIELD.w })),
  ]);
  const evenings = [...new Set(day.steps.map((s) => s.evening))];
  const tables = evenings.flatMap((evening) => {
    const steps = day.steps.filter((s) => s.evening === evening);
    const title = job.evening ? [textFigure(bold(said.evening(evening)))] : [];
    return chunks(steps, ROWS).map((some, i) =>
      column([...(i === 0 ? title : []), stepsTable(some, day.steps, of)], 1),
    );
  });
  const [first, ...rest] = tables;
  return [column([intro, first!], 1.5), ...rest];
}
/** Of a table that stays on one page. */
const ROWS = 12;

function chunks<T>(all: readonly T[], most: number): readonly (readonly T[])[] {
  return Array.from({ length: Math.ceil(all.length / most) }, (_, i) => all.slice(i * most, (i + 1) * most));
}

function stepsTable(steps: readonly DayStep[], all: readonly DayStep[], { said, words: { to } }: CoverOf): Figure {
  const s = said.steps;
  const titles = ['', s.part, s.setup, s.pieces, s.before, s.minutes].map((text) => ({ text: bold(text) }));
  const rows = steps.map((step) => [
    { text: `☐ ${all.indexOf(step) + 1}` },
    { text: bold(step.setup.part) },
    { text: step.setup.name },
    { text: String(step.setup.pieces) },
    { text: changesText(step, said) },
    { text: minutesText(step.minutes, to).replace(/ min$/, '') },
  ]);
  const widths = [{ w: 14 }, { w: 42 }, { w: 30 }, { w: 10 }, { w: 60 }, { w: 24 }];
  return table(widths, [titles, ...rows]);
}

function changesText({ changes }: DayStep, said: JobWords): string {
  if (changes.includes('vise')) return changes.includes('machine') ? `${said.otherMachine}, ${said.bare}` : said.bare;
  return changes.length === 0 ? said.nothing : changes.map((c) => said.changes[c]).join(', ');
}
