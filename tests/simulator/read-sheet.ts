/** A sheet as it is printed: the words of its Markdown read back, set-up by set-up, row by row. */
import type { Face } from '../../server/src/model/model';
import { type PrintedHold, readHold } from './printed-hold';
import { liftsIn } from './printed-tabs';

export type Point = readonly [number, number];
/** Polylines; `fills`: all within them, each loop inside another left out again. */
interface Path {
  readonly lines: readonly (readonly Point[])[];
  readonly fills: boolean;
}
export interface Pass {
  readonly tool: string;
  readonly does: string;
  readonly of: string;
  readonly path: Path;
  readonly tips: readonly number[];
  readonly unset: readonly string[];
  readonly bores?: readonly number[];
  /** Lifted to this height over each tab. */
  readonly lift?: number;
}
interface Axis {
  readonly from: Face;
  readonly toward: Face;
}
export interface Touched {
  readonly axis: 'X' | 'Y' | 'Z';
  readonly shows: number;
  readonly tip: number;
  readonly from?: string;
  readonly on: 'face' | 'parallel' | 'top' | 'bore';
}
export interface Setup {
  readonly up: Face;
  readonly hold: PrintedHold;
  readonly axes: Readonly<Record<'X' | 'Y' | 'Z', Axis>>;
  readonly steps: readonly (
    | { readonly pass: Pass }
    | { readonly touched: Touched }
    | {
        readonly filed: {
          readonly of: string;
          readonly edges: readonly string[];
          readonly size: number;
          readonly after: number;
        };
      }
    | { readonly left: string }
    | { readonly swept: true }
    | { readonly sawn: { readonly face: Face; readonly long: number } }
  )[];
}

const OPPOSITE: Readonly<Record<Face, Face>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  bottom: 'top',
  top: 'bottom',
};

/** What a reader sees: without the marks that keep words words. */
function plain(markdown: string): string {
  return markdown
    .replace(/\\([^\w\s])/g, '$1')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&amp;/g, '&')
    .replace(/\*\*/g, '');
}

/** In millimetres, whatever the sheet is in; turns and marks of hand wheels say the same once more. */
function inMm(words: string, inches: boolean): string {
  const once = words.replace(/ \([^()|]*\d turns \d+ marks[^()|]*\)/g, '');
  if (!inches) return once;
  const mm = (text: string) => text.replace(/[\d.]*\d/g, (n) => String(Number(n) * 25.4));
  return once
    .replace(/\b(?:[XYZ]|touch|file|parallels of) -?[\d.]*\d/g, mm)
    .replace(/⌀ ?[\d.]*\d(?:, [\d.]*\d)*/g, mm)
    .replace(/[\d.]*\d(?= in the jaws| out of the jaws)/g, mm);
}

export function readSheet(markdown: string): readonly Setup[] {
  const inches = /^Lengths in inches\.$/m.test(markdown);
  return markdown
    .split(/^## Set-up /m)
    .slice(1)
    .map((text) => {
      const words = inMm(plain(text), inches);
      const up = /, (\w+) up$/m.exec(words)![1]!.toLowerCase() as Face;
      const from = (k: string) => new RegExp(`\\b${k} 0 at (\\w+)`).exec(words)![1] as Face;
      const axis = (k: string): Axis => ({ from: from(k), toward: OPPOSITE[from(k)] });
      const zeros = words.slice(words.indexOf('### Zero'), words.indexOf('### Passes'));
      const height = zeros.split('\n').find((l) => / Z -?[\d.]+$/.test(l));
      const steps: Setup['steps'][number][] = [];
      let last: Path | undefined;
      for (const line of words.slice(words.indexOf('### Passes')).split('\n')) {
        if (!line.startsWith('| ') || line.startsWith('| ---') || line.startsWith('| |')) continue;
        const cells = line.slice(2, -2).split(' | ');
        if (/^\d+$/.test(cells[0]!)) {
          const made = passOf(cells, last);
          if (typeof made === 'string') steps.push({ left: made });
          else {
            last = made.path;
            steps.push({ pass: made });
          }
          continue;
        }
        const told = (cells[1] ?? cells[0]!).trim();
        if (told.includes('nothing on hand')) steps.push({ left: told });
        const filed = /^(\S+): file ([\d.]+) at (.*) after set-up (\d+)/.exec(told);
        if (filed)
          steps.push({
            filed: { of: filed[1]!, size: Number(filed[2]), edges: filed[3]!.split(', '), after: Number(filed[4]) },
          });
        if (/^sweep /.test(told)) steps.push({ swept: true });
        const sawn = /saw it off at (\w+), ([\d.]+) long/.exec(told);
        if (sawn) steps.push({ sawn: { face: sawn[1] as Face, long: Number(sawn[2]) } });
        const face = touchedOf(told);
        if (face) steps.push({ touched: face });
        const set = / in; Z at touch (-?[\d.]+)/.exec(told);
        if (set && height) steps.push({ touched: { ...touchedOf(height)!, shows: Number(set[1]) } });
      }
      return { up, hold: readHold(words), axes: { X: axis('X'), Y: axis('Y'), Z: axis('Z') }, steps };
    });
}

function touchedOf(told: string): Touched | undefined {
  const found = /(?:read-out shows|set the dial to) ([XYZ]) (-?[\d.]+)/.exec(told);
  if (!found) return undefined;
  const on = told.includes('on a parallel')
    ? 'parallel'
    : told.includes('on the top')
      ? 'top'
      : told.includes('swept')
        ? 'bore'
        : 'face';
  const from = /coming from the (\w+)/.exec(told)?.[1];
  return {
    axis: found[1] as 'X',
    shows: Number(found[2]),
    tip: Number(/⌀([\d.]+)/.exec(told)?.[1] ?? 0),
    on,
    ...(from && { from }),
  };
}

/** What is said before a place, of axes that have no zero yet, and of such that can have none. */
const UNSET =
  /^(?:([XY])(?: and ([XY]))? not set yet: [^;]*; once set: )?(?:([XY])(?: and ([XY]))? cannot be set: [^;]*; where it is known: )?/;

function passOf([, what, , , said, depth, , look]: readonly string[], last: Path | undefined): Pass | string {
  const told = /^(\S+), [\d.]+ out · (\S+) (.*)$/.exec(what!)!;
  const [before = '', ...axes] = UNSET.exec(said!) ?? [];
  const where = said!.slice(before.length);
  if (where === 'as drawn') return what!;
  const tips = [...depth!.matchAll(/Z (-?[\d.]+)/g)].map((m) => Number(m[1]));
  const bores = /⌀ ([\d., ]+);/.exec(depth!)?.[1]?.split(', ').map(Number);
  const path = where!.startsWith('same place') ? last! : pathOf(where!);
  const [lift] = liftsIn(look ?? '');
  const unset = axes.filter((a) => a !== undefined);
  return {
    tool: told[1]!,
    does: told[2]!,
    of: told[3]!,
    path,
    tips,
    unset,
    ...(bores && { bores }),
    ...(lift && { lift: lift[0] }),
  };
}

function pathOf(where: string): Path {
  const all = /^all over within (.*), strokes [\d.]+ apart$/.exec(where);
  if (all) return { lines: all[1]!.split('; and ').map(lineOf), fills: true };
  return { lines: where.split(/; then |; (?=X)/).map(lineOf), fills: false };
}

const NUMBER = '(-?[\\d.]+)';
const AT = new RegExp(`X ${NUMBER} Y ${NUMBER}$`);
const ROUND = new RegExp(`^(left|right) round X ${NUMBER} Y ${NUMBER} to X`);

function lineOf(text: string): readonly Point[] {
  const points: Point[] = [];
  for (const word of text.split(' → ')) {
    const at = AT.exec(word)!;
    const to: Point = [Number(at[1]), Number(at[2])];
    const round = ROUND.exec(word);
    if (round) points.push(...arcOf(points.at(-1)!, to, [Number(round[2]), Number(round[3])], round[1] === 'left'));
    else points.push(to);
  }
  return points;
}

/** An arc as chords, none bulging more than a hundredth. */
function arcOf(from: Point, to: Point, [cx, cy]: Point, left: boolean): readonly Point[] {
  const r = Math.hypot(from[0] - cx, from[1] - cy);
  const start = Math.atan2(from[1] - cy, from[0] - cx);
  let sweep = Math.atan2(to[1] - cy, to[0] - cx) - start;
  if (left && sweep <= 1e-6) sweep += 2 * Math.PI;
  if (!left && sweep >= -1e-6) sweep -= 2 * Math.PI;
  const n = Math.max(1, Math.ceil(Math.abs(sweep) / (2 * Math.acos(Math.max(0, 1 - 0.005 / Math.max(r, 0.01))))));
  return Array.from({ length: n }, (_, k) => {
    if (k === n - 1) return to;
    const turn = start + (sweep * (k + 1)) / n;
    return [cx + r * Math.cos(turn), cy + r * Math.sin(turn)] as const;
  });
}
