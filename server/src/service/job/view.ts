/** A job's paper in words for the panel beside its text: the same as its cover has. */
import type { Saw } from '../../model/job-model';
import type { SawnBar } from '../../planning/cut-list/types';
import { moneyText } from '../../report/costs';
import { minutesText } from '../../report/cuts';
import { hoursText, withoutText } from '../../report/job-figures';
import { type JobPaper, MOST_SAVINGS } from '../../sheet/job/data';
import { barWords, buyWords, changeWords, orderWords, piecesWords, sawWords, toolWords } from '../../sheet/job/words';
import { wordsOf } from '../../sheet/language';
import type { Against, JobView, ViewBar, ViewPart } from './protocol';

const WORDS = wordsOf('en');

/** `uriOf`: of a part's text, by what the job calls it. */
export function viewOf(paper: JobPaper, uriOf: (spec: string) => string): JobView {
  const { job, figures, bars, day } = paper;
  const { job: said, part } = WORDS;
  const [mass, hours] = [massOf(paper), hoursOf(paper)];
  const buy = paper.toolToBuy;
  return {
    title: job.name || said.job,
    sums: said.sums(figures.pieces, figures.parts),
    lacks: lacksOf(paper),
    ...(mass && { mass }),
    ...(hours && { hours }),
    ...(figures.cost && figures.cost.total[1] > 0 && { cost: moneyText(figures.cost.total, figures.cost.currency) }),
    parts: partsOf(paper, uriOf),
    savings: paper.savings
      .slice(0, MOST_SAVINGS)
      .map((s) => ({ part: s.part, minutes: minutesText(s.minutes), message: s.message })),
    saw: sawWords(job, said),
    bars: bars.map((need) => ({
      title: piecesWords(need, WORDS),
      said: buyWords(need, paper, said),
      bars: need.list.bars.map((bar) => barOf(bar, job.saw, barWords(bar, job.units, said))),
    })),
    tools: [
      ...paper.tools.map((t) => ({ said: toolWords(t, job.units, part), parts: t.parts.join(', ') })),
      ...(buy ? [{ said: said.buy(buy.what), parts: said.cures(buy.cures, buy.parts.join(', ')) }] : []),
    ],
    day: {
      said: day.steps.length > 0 ? [said.orderNote, ...orderWords(paper, said)] : [],
      evenings: job.evening !== undefined,
      steps: day.steps.map((s) => ({
        evening: s.evening,
        part: s.setup.part,
        setup: s.setup.name,
        pieces: s.setup.pieces,
        change: changeWords(s, said),
        minutes: minutesText(s.minutes),
      })),
    },
  };
}

function massOf({ job: { massLimitG: limit }, figures: { mass_g: grams } }: JobPaper): Against | undefined {
  if (grams === null) return undefined;
  const { job: said } = WORDS;
  const spare = limit && limit.value - grams;
  const left = spare === undefined ? [] : [spare >= 0 ? said.spare(spare.toFixed(1)) : said.over((-spare).toFixed(1))];
  return {
    said: [said.mass(grams.toFixed(1), limit?.text), ...left].join(', '),
    ...(limit && limit.value > 0 && { share: grams / limit.value }),
    isOver: spare !== undefined && spare < 0,
  };
}

function hoursOf({ job: { hours: limit }, figures: { machine_h: hours } }: JobPaper): Against | undefined {
  if (!hours || hours[1] <= 0) return undefined;
  const there = limit && String(Number(limit.value.toFixed(1)));
  return {
    said: WORDS.job.hours(hoursText(hours).replace(/ h$/, ''), there),
    // By slow hands: what may be used up.
    ...(limit && limit.value > 0 && { share: hours[1] / limit.value }),
    isOver: limit !== undefined && hours[0] > limit.value,
  };
}

function lacksOf({ figures }: JobPaper): readonly string[] {
  const without = withoutText(figures);
  const { rough } = figures;
  return [
    ...(without ? [`Without ${without}.`] : []),
    ...(rough.length > 0 ? [`In a rough order, for no plan is known: ${rough.join(', ')}.`] : []),
  ];
}

function partsOf({ rows, figures }: JobPaper, uriOf: (spec: string) => string): readonly ViewPart[] {
  const { job: said } = WORDS;
  const grams = (g: number | undefined) => (g === undefined ? '' : `${g.toFixed(1)} g`);
  const orders = { written: '', planned: `, ${said.planned}`, rough: `, ${said.rough}` };
  return rows.map((r) => {
    const all = r.grams === undefined ? undefined : r.grams * r.pieces;
    return {
      name: r.name,
      uri: uriOf(r.spec),
      pieces: r.pieces,
      one: grams(r.grams),
      all: grams(all),
      share: figures.mass_g && all !== undefined ? all / figures.mass_g : 0,
      setups: `${r.setups}${r.order ? orders[r.order] : ''}`,
      machine: r.machine ? minutesText(r.machine) : '',
    };
  });
}

/** As it lies on the bar: trimmed, then piece and kerf in turn. */
function barOf({ lengthMm, cutsMm }: SawnBar, { kerfMm, trimMm }: Saw, said: string): ViewBar {
  let at = trimMm;
  const pieces = cutsMm.map((mm) => {
    const from = at;
    at += mm + kerfMm;
    return { from: from / lengthMm, to: (from + mm) / lengthMm, said: String(Number(mm.toFixed(1))) };
  });
  return { said, pieces };
}
