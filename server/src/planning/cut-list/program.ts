/** The choice of patterns as a linear program in the open LP text format: so many bars by each pattern, at the least cost. */
import type { Cutting, Pattern, Problem } from './types';

export interface Column {
  readonly kind: number;
  readonly pattern: Pattern;
}

/** What a solver says of one program. */
export interface Solved {
  readonly optimal: boolean;
  readonly cost: number;
  /** Of each column, in the program's order. */
  readonly bars: readonly number[];
  /** What one more piece of each size would cost; then of each kind with a count. Of a program with fractions only. */
  readonly prices: readonly number[];
}

/** Solves a program's text: `columns` and `rows` are counts. Rejects where it cannot, or where it took too long. */
export type Solver = (program: string, columns: number, rows: number) => Promise<Solved>;

/** `whole`: bars cannot be cut in fractions. Without, what it comes to is a bound. */
export function programOf({ sizes, times, kinds }: Problem, columns: readonly Column[], whole: boolean): string {
  const sum = (terms: readonly (readonly [number, number])[]) =>
    terms.map(([n, j]) => `${n < 0 ? '-' : '+'} ${Math.abs(n)} x${j}`).join('\n ');
  const terms = (of: (c: Column) => number) =>
    columns.flatMap((c, j) => {
      const n = of(c);
      return n === 0 ? [] : [[n, j] as const];
    });
  const pieces = sizes.map((_, i) => ` p${i}: ${sum(terms((c) => c.pattern[i]!))} >= ${times[i]!}`);
  const counted = countedKinds({ sizes, times, kinds }).map(
    (k) => ` k${k}: ${sum(terms((c) => (c.kind === k ? 1 : 0))) || '0 x0'} <= ${kinds[k]!.most}`,
  );
  const cost = sum(terms((c) => kinds[c.kind]!.cost)) || '0 x0';
  const names = columns.map((_, j) => `x${j}`).join('\n ');
  return `Minimize\n cost: ${cost}\nSubject To\n${[...pieces, ...counted].join('\n')}\n${whole ? `General\n ${names}\n` : ''}End\n`;
}

export function countedKinds({ kinds }: Problem): readonly number[] {
  return kinds.flatMap((k, i) => (k.count === undefined ? [] : [i]));
}

/** More pieces than were asked for are not sawn: they come off the patterns again. */
export function cuttingsOf({ times }: Problem, columns: readonly Column[], bars: readonly number[]): Cutting[] {
  const over = times.map((n, i) => columns.reduce((sum, c, j) => sum + c.pattern[i]! * Math.round(bars[j]!), 0) - n);
  const cuttings: Cutting[] = [];
  columns.forEach(({ kind, pattern }, j) => {
    let rest = Math.round(bars[j]!);
    while (rest > 0) {
      const off = pattern.map((n, i) => Math.max(0, Math.min(n, over[i]!)));
      // As many alike as lose the same pieces.
      const alike = Math.min(rest, ...off.map((n, i) => (n > 0 ? Math.floor(over[i]! / n) : rest)));
      for (const [i, n] of off.entries()) over[i]! -= n * alike;
      cuttings.push({ kind, pattern: pattern.map((n, i) => n - off[i]!), bars: alike });
      rest -= alike;
    }
  });
  return cuttings;
}
