/** Equality within a tolerance, with a message that says both. */
import assert from 'node:assert/strict';

export function near(actual: number, expected: number, tolerance: number, what = ''): void {
  assert.ok(
    Math.abs(actual - expected) <= tolerance,
    `${what}: ${actual} is not ${expected} ± ${tolerance} (off by ${actual - expected})`,
  );
}
