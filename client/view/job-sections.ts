/** A job as elements of its page. Words are set as text only. */
import type { Against, JobView, ViewBar, ViewBars } from '../../server/src/service/job/protocol';
import { type Child, make, text } from './elements';

export function jobSections(view: JobView): readonly HTMLElement[] {
  return [
    make('section', [
      text('h1', view.title),
      text('p', view.sums),
      ...view.lacks.map((words) => text('p', words, 'lacks')),
      ...againstLines('mass', view.mass),
      ...againstLines('hours', view.hours),
      ...(view.cost ? [text('p', view.cost)] : []),
    ]),
    partsSection(view),
    savingsSection(view),
    ...(view.bars.length > 0 ? [sawSection(view)] : []),
    ...(view.tools.length > 0 ? [toolsSection(view)] : []),
    ...(view.day.steps.length > 0 ? [daySection(view)] : []),
  ];
}

/** Against its limit: words, and a meter where there is one. */
function againstLines(what: string, against: Against | undefined): HTMLElement[] {
  if (!against) return [];
  const { said, share, isOver } = against;
  const words = text('p', said, isOver ? 'over' : '');
  if (share === undefined) return [words];
  return [
    words,
    make('meter', [], { max: '1', value: String(Math.min(1, share)), 'aria-label': what, class: isOver ? 'over' : '' }),
  ];
}

function tableOf(
  titles: readonly string[],
  rows: readonly (readonly Child[])[],
  numbers: readonly number[],
): HTMLElement {
  const cell = (name: string) => (words: Child, i: number) =>
    make(name, [words], numbers.includes(i) ? { class: 'number' } : {});
  return make(
    'div',
    [
      make('table', [
        make('thead', [make('tr', titles.map(cell('th')))]),
        make(
          'tbody',
          rows.map((r) => make('tr', r.map(cell('td')))),
        ),
      ]),
    ],
    { class: 'wide' },
  );
}

const button = (words: string, act: string, uri: string, title: string) =>
  make('button', [words], { type: 'button', 'data-act': act, 'data-uri': uri, title });

function partsSection({ parts }: JobView): HTMLElement {
  const rows = parts.map((p) => [
    // Side by side where there is room, else one under the other.
    make(
      'span',
      [button(p.name, 'open', p.uri, 'Open its text'), button('sheet', 'sheet', p.uri, `Show the sheet of ${p.name}`)],
      { class: 'both' },
    ),
    String(p.pieces),
    p.one,
    p.all === '' ? '' : `${p.all} (${(100 * p.share).toFixed(0)} %)`,
    p.setups,
    p.machine,
  ]);
  const titles = ['part', 'n', 'one', 'all', 'set-ups', 'at the machine'];
  return make('section', [text('h2', 'Time for each part'), tableOf(titles, rows, [1, 2, 3])]);
}

function savingsSection({ savings }: JobView): HTMLElement {
  const none = text('p', 'No change to a part was found that saves what the shop’s limits ask for.');
  const found = savings.map((s) => make('li', [text('strong', `${s.part}, ${s.minutes}: `), s.message]));
  return make('section', [text('h2', 'Where most can be saved'), savings.length === 0 ? none : make('ul', found)]);
}

function sawSection({ saw, bars }: JobView): HTMLElement {
  return make('section', [text('h2', 'Buy and saw'), text('p', saw), ...bars.flatMap(barsOf)]);
}

function barsOf({ title, said, bars }: ViewBars): HTMLElement[] {
  return [text('h3', title), text('p', said.join(' ')), ...bars.flatMap((bar) => [text('p', bar.said), barOf(bar)])];
}

const SVG = 'http://www.w3.org/2000/svg';
const LONG = 1000;
const HIGH = 22;

/** To length: pieces as boxes; what is between them is the saw's, what follows is left. */
function barOf({ said, pieces }: ViewBar): HTMLElement {
  const svg = document.createElementNS(SVG, 'svg');
  svg.setAttribute('viewBox', `0 0 ${LONG} ${HIGH}`);
  svg.setAttribute('role', 'img');
  svg.setAttribute('aria-label', said);
  const box = (from: number, to: number, kind: string) => {
    const made = document.createElementNS(SVG, 'rect');
    const marks = { x: from * LONG, y: 1, width: (to - from) * LONG, height: HIGH - 2, class: kind };
    for (const [key, value] of Object.entries(marks)) made.setAttribute(key, String(value));
    return made;
  };
  svg.append(box(0, 1, 'bar'), ...pieces.map((p) => box(p.from, p.to, 'piece')));
  return make('div', [svg], { class: 'bar' });
}

function toolsSection({ tools }: JobView): HTMLElement {
  const rows = tools.map((t) => [t.said, t.parts]);
  return make('section', [text('h2', 'Bring for all of it'), tableOf(['tool', 'for'], rows, [])]);
}

function daySection({ day }: JobView): HTMLElement {
  const evening = day.evenings ? ['evening'] : [];
  const titles = ['', ...evening, 'part', 'set-up', 'n', 'change before it', 'takes'];
  const rows = day.steps.map((s, i) => [
    String(i + 1),
    ...(day.evenings ? [String(s.evening)] : []),
    s.part,
    s.setup,
    String(s.pieces),
    s.change,
    s.minutes,
  ]);
  return make('section', [
    text('h2', 'In this order'),
    ...day.said.map((words) => text('p', words)),
    tableOf(titles, rows, [0]),
  ]);
}
