/**
 * Planning from nothing, and again after one edit: in this process, after a few rounds to get warm. The part is a deck for the
 * gondola that the campus workshop can make: as many seats, screws and pockets as asked, on both its sides and two edges.
 */
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { performance } from 'node:perf_hooks';
import { attemptsFor } from '../../server/src/planning/attempt-cache';
import { planFor } from '../../server/src/planning/plan-cache';
import { checkPart, checkShop } from '../../server/src/rules/check';

interface PlanTimes {
  readonly fresh: readonly number[];
  /** The depth of one feature changed. */
  readonly again: readonly number[];
  readonly setups: number;
  readonly attempts: number;
  /** After the edit: those that could not be taken from memory. */
  readonly judgedAgain: number;
  /** Everything is cut. */
  readonly whole: boolean;
}

const CELL = 12;
const [X, Y, Z] = [144, 100, 24] as const;
const [COLUMNS, ROWS] = [X / CELL, Math.floor(Y / CELL)] as const;

/** `count` features, at most 214, on `top`, `bottom`, `front` and `back`; the ends are sawn. */
export function deck(count: number): string {
  const sides = Math.min(22, Math.max(2, Math.round(count * 0.1)));
  const over = Math.ceil((count - sides) / 2);
  const under = count - sides - over;
  const lines = [
    '# Everything of the gondola is screwed to it.',
    'part: deck',
    'revision: A',
    'units: mm',
    'material: aluminium-6061-t6',
    'tolerance: ISO 2768-m',
    '',
    `body: { x: ${X}, y: ${Y}, z: ${Z} }`,
    '',
    'stock:',
    '  form: plate',
    '  sawn: [left, right, front, back]',
    '  extra: { left: 1.5, right: 1.5, front: 1.5, back: 1.5 }',
    '',
    'features:',
  ];
  // Spread over the plate: neighbours in the list stand apart.
  const cells = Array.from({ length: COLUMNS * ROWS }, (_, i) => (i * 37) % (COLUMNS * ROWS));
  const at = (cell: number) =>
    `x: ${(cell % COLUMNS) * CELL + CELL / 2}, y: ${Math.floor(cell / COLUMNS) * CELL + CELL / 2 + 2}`;
  for (let i = 0; i < over; i++) lines.push(...feature(`over-${i}`, 'top', at(cells[i]!), i));
  for (let i = 0; i < under; i++) lines.push(...feature(`under-${i}`, 'bottom', at(cells[i]!), i + 1));
  for (let i = 0; i < sides; i++) {
    const face = i % 2 ? 'back' : 'front';
    lines.push(...screw(`side-${i}`, face, `x: ${(Math.floor(i / 2) + 0.5) * CELL + 6}, z: 12`));
  }
  return `${lines.join('\n')}\n`;
}

function feature(name: string, face: string, at: string, i: number): readonly string[] {
  if (i % 3 === 0) return screw(name, face, at);
  const shape = i % 3 === 1 ? ['size: { x: 9, y: 8 }', 'corner-radius: 3.2'] : ['diameter: 8'];
  return [
    `  ${name}:`,
    '    kind: pocket',
    `    face: ${face}`,
    `    at: { ${at} }`,
    ...shape.map((s) => `    ${s}`),
    '    depth: 4',
  ];
}

function screw(name: string, face: string, at: string): readonly string[] {
  return [
    `  ${name}:`,
    '    kind: hole',
    `    face: ${face}`,
    `    at: { ${at} }`,
    '    thread: M3',
    '    thread-depth: 4.5',
    '    depth: 7',
  ];
}

/** The same text with one pocket in the middle of it cut a little less deep. */
export function edited(text: string): string {
  const all = [...text.matchAll(/ {4}depth: 4$/gm)];
  const { index } = all[Math.floor(all.length / 2)]!;
  return `${text.slice(0, index)}    depth: 3.75${text.slice(index + '    depth: 4'.length)}`;
}

export function planTimes(count: number, rounds: number): PlanTimes {
  const shopText = readFileSync(resolve(__dirname, '../../examples/gimbal/campus.shop.yaml'), 'utf8');
  const fresh: number[] = [];
  const again: number[] = [];
  let last: Omit<PlanTimes, 'fresh' | 'again'> | undefined;
  for (let i = 0; i < rounds + 2; i++) {
    // A shop read anew: nothing that was kept for the last one serves again.
    const { shop } = checkShop(shopText, 'file:///campus.shop.yaml');
    const checked = checkPart(deck(count), shop);
    let begun = performance.now();
    const plan = planFor(checked);
    const first = performance.now() - begun;
    const next = checkPart(edited(checked.tree.text), shop, checked);
    const { judged } = attemptsFor(shop);
    begun = performance.now();
    const planAgain = planFor(next);
    const second = performance.now() - begun;
    last = {
      setups: plan?.setups.length ?? 0,
      attempts: plan?.attempts ?? 0,
      judgedAgain: attemptsFor(shop).judged - judged,
      whole: plan !== undefined && plan.uncut.length === 0 && planAgain?.uncut.length === 0,
    };
    if (i < 2) continue;
    fresh.push(first);
    again.push(second);
  }
  return { fresh, again, ...last! };
}
