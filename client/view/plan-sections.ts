/** A plan as elements of its page: what it comes to, each set-up with why it is there, what would spare one. */
import type { PlanPage } from '../../server/src/service/plan/answer';
import { type Child, make, text } from './elements';

type SetUp = PlanPage['setups'][number];
type Said = SetUp['said'];

export function planSections(page: PlanPage): readonly HTMLElement[] {
  return [
    make('section', [
      text('h1', plain(page.headline)),
      ...page.about.map((words) => text('p', plain(words))),
      ...page.time.map((words) => text('p', plain(words))),
      ...saidList(page.besides),
    ]),
    ...listSection('Not cut', page.uncut, 'lacks'),
    ...page.setups.map(setUpSection),
    ...listSection('Other ways', page.others),
  ];
}

function setUpSection(setup: SetUp, i: number): HTMLElement {
  const step = make('button', ['Step through'], {
    type: 'button',
    'data-step': String(i),
    title: `Step through ${setup.name} in the part view`,
  });
  return make('section', [
    make('h2', [text('span', `${i + 1} ${setup.name}: ${setup.up} up`), step]),
    ...setup.why.map((words) => text('p', plain(words), 'why')),
    make('dl', [
      ...pair('held', setup.held),
      ...pair('zero', setup.zero),
      ...pair('cuts', setup.cuts.join(', ')),
      ...pair('saw', setup.saw),
      ...pair('tools', setup.tools.join(', ')),
      ...pair('cutting', setup.cutting),
      ...setup.lacks.flatMap((words) => pair('lacks', words)),
      ...setup.notes.flatMap((words) => pair('note', words)),
    ]),
    ...saidList(setup.said),
  ]);
}

function pair(what: string, words: string | undefined): HTMLElement[] {
  return words ? [text('dt', what), text('dd', plain(words))] : [];
}

const WORD = { error: 'error', warning: 'mind', hint: 'hint' } as const;

function saidList(said: Said): HTMLElement[] {
  if (said.length === 0) return [];
  const items = said.map(({ severity, message, rule }) => {
    const words: Child[] = [text('strong', `${WORD[severity]} `), plain(message), text('span', ` ${rule}`, 'rule')];
    return make('li', words, { class: severity });
  });
  return [make('ul', items, { class: 'said' })];
}

function listSection(title: string, words: readonly string[], kind = ''): HTMLElement[] {
  if (words.length === 0) return [];
  const items = words.map((w) => text('li', plain(w), kind));
  return [make('section', [text('h2', title), make('ul', items)])];
}

/** Messages have names between backticks, for editors that draw them as code. */
function plain(words: string): string {
  return words.replaceAll('`', '');
}
