/**
 * The same question, the same answer: here or in the thread beside, whatever was asked there before and in which order. What
 * else an answer turns on (a plan that is known) is told with the question.
 */
import assert from 'node:assert/strict';
import { resolve } from 'node:path';
import { builtinShop } from '../../server/src/model/builtin-shop';
import { NodeAside } from '../../server/src/node/aside';
import { checkPart } from '../../server/src/rules/check';
import type { Order } from '../../server/src/service/aside';
import { answerTo, type Question, type Questions } from '../../server/src/service/questions';
import { type PartSnapshot, wholePart } from '../../server/src/service/snapshot';
import { linesOf } from '../../server/src/text/lines';
import { random } from '../fuzz/runs';

const SCRIPT = resolve(__dirname, '../../dist/aside-worker.js');
const TEXT = `part: block
units: mm
material: aluminium-6061-t6
body: { x: 60, y: 40, z: 20 }
features:
  a: { kind: hole, face: top, at: { x: 20, y: 20 }, diameter: 6, depth: 8 }
  c: { kind: pocket, face: top, at: { x: 44, y: 20 }, size: { x: 30, y: 20 }, corner-radius: 1, depth: 12 }
`;
const TEXTS = [TEXT, `${TEXT}setups:\n  first: { up: top, cuts: [a, c] }\n`];
const JOB = 'job: set\nparts:\n  block: { spec: block.part.yaml }\n';
const PATH = '/w/block.part.yaml';
const whole = { start: { line: 0, character: 0 }, end: { line: 20, character: 0 } };
const NOWHERE = { block: '', from: 0, to: 0 };
const set = <Q extends Question>(question: Q, ...told: Questions[Q]['told'][]) =>
  told.map((t) => ({ question, told: t }));

/** Every question, with what may be told with it: one that is added later does not compile until it is asked here. */
const ASKED: { readonly [Q in Question]: readonly Pick<Order<Q>, 'question' | 'told'>[] } = {
  rule: set('rule', { name: 'wall/thin' }, { name: 'corner/tight' }),
  plan: set('plan', { want: 'plan' }, { want: 'findings' }, { want: 'answer' }),
  figures: set('figures', {}),
  hover: set(
    'hover',
    { offset: TEXT.indexOf('block'), findings: [] },
    { offset: TEXT.indexOf('pocket'), findings: [] },
  ),
  inlays: set('inlays', { range: whole }),
  work: set(
    'work',
    { moment: { setup: 0, when: 'after' }, planned: false },
    { moment: { setup: 0, when: 'after', pass: 1 }, planned: false, done: [{ order: 0, some: [0] }] },
    { moment: { setup: 7, when: 'before' }, planned: false },
    { moment: { setup: 0, when: 'before' }, planned: true },
  ),
  setUp: set('setUp', { setup: 0, planned: false }, { setup: 0, planned: true }, { setup: 7, planned: false }),
  sheet: set('sheet', { file: 'block.part.yaml', mark: '1a2b3c4d', creator: 'test', when: 0, language: 'en' }),
  ofJob: set('ofJob', {
    entry: { name: 'block', spec: { name: 'block.part.yaml', span: NOWHERE }, span: NOWHERE, whole: NOWHERE },
    quantity: 3,
  }),
  compared: set(
    'compared',
    { before: { path: PATH, text: TEXTS[1]!, shop: builtinShop() } },
    { before: { path: PATH, text: TEXTS[0]!, shop: builtinShop() }, today: builtinShop() },
  ),
  comparedJobs: set('comparedJobs', {
    before: { text: JOB, findings: [], pieces: [{ name: 'block', text: TEXTS[0]!, shop: builtinShop(), quantity: 1 }] },
    after: { text: JOB, findings: [], pieces: [{ name: 'block', text: TEXTS[1]!, shop: builtinShop(), quantity: 1 }] },
    renamed: new Map(),
  }),
  starter: set('starter', { name: 'block', template: 'blank' }),
  days: set('days', { ask: { parts: [], eveningMin: 60 } }),
  toBuy: set('toBuy', { name: 'block', otherParts: [{ name: 'other', text: TEXTS[1]! }] }),
  told: set('told', { missing: [], findings: [], planned: false }, { missing: [], findings: [], planned: true }),
  actions: set('actions', { range: whole }, { range: whole, only: ['quickfix'] }),
};

/** What can be told apart on the other side of a thread. */
const plain = (answer: unknown): unknown => structuredClone(answer);
const isMaybe = <T>(x: T): Order => x as unknown as Order;

function anew(text: string): PartSnapshot {
  const checked = checkPart(text, builtinShop());
  return wholePart({ path: PATH, text, lines: linesOf(text), checked, shopPath: undefined, besides: [] });
}

describe('the same question', function () {
  this.timeout(120_000);
  const beside = new NodeAside(SCRIPT, (note) => assert.fail(note));
  after(() => beside.stop());

  it('has the same answer here and beside, in any order, of texts that come and go', async () => {
    const draw = random(11);
    const all = TEXTS.flatMap((text) => Object.values(ASKED).flatMap((of) => of.map((o) => ({ text, ...o }))));
    const known = new Map<object, unknown>();
    for (const one of all) known.set(one, plain(answerTo(one.question, anew(one.text), one.told as never)));
    // Mixed at first, and then one text after the other: what a plan was just made of is asked about as well.
    const place = ({ text }: { text: string }) => draw.next() + (draw.next() < 0.7 ? 1 + TEXTS.indexOf(text) : 0);
    for (const { one } of all.map((x) => ({ one: x, at: place(x) })).sort((a, b) => a.at - b.at)) {
      const order = isMaybe({ path: PATH, shop: builtinShop(), urgency: 'asked', ...one });
      const answer = await beside.ask(order).reply;
      assert.deepEqual(plain(answer), known.get(one), `${one.question} ${JSON.stringify(one.told)} of ${one.text}`);
    }
  });
});
