/** Reading texts for the simulator's tests. */
import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Part } from '../../server/src/model/model';
import { resolvePart } from '../../server/src/model/part';
import { resolveShop } from '../../server/src/model/shop';
import type { Shop } from '../../server/src/model/shop-model';
import { readText } from '../../server/src/text/read';

const GIMBAL = resolve(__dirname, '../../examples/gimbal');
export function gimbal(...path: string[]): string {
  return readFileSync(resolve(GIMBAL, ...path), 'utf8');
}
export function partOf(text: string): Part {
  const part = resolvePart(readText(text));
  assert.deepEqual(
    part.problems.map((p) => p.message),
    [],
  );
  return part;
}
export function shopOf(text: string): Shop {
  return resolveShop(readText(text));
}
export const campus = shopOf(gimbal('campus.shop.yaml'));
