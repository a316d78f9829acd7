/** What the second source of a table says of its row. */
import assert from 'node:assert/strict';

export type Row = Readonly<Record<string, unknown>>;

/** True where it has the row and says the same, undefined where it has none; it throws where it says something else. */
export type Second = (row: Row) => true | undefined;

export function near(value: number, second: number, allowed: number, what: string): true {
  assert.ok(Math.abs(value - second) <= allowed + 1e-9, `${what}: the second source has ${second}`);
  return true;
}

export function same(value: unknown, second: unknown, what: string): true {
  assert.deepEqual(value, second, `${what}: the second source has ${JSON.stringify(second)}`);
  return true;
}

export function textOf({ source: _, ...columns }: Row): string {
  return JSON.stringify(columns);
}
