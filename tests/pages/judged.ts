/** A page as a person finds it: a picture of it is kept, all words stand out, nothing covers anything or leaves its frame. */
import assert from 'node:assert/strict';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { look } from './look';
import type { ThemeName } from './themes';

export const SHOTS = join(__dirname, '../artefacts/pages');
export const WIDTHS = { narrow: { width: 470, height: 760 }, wide: { width: 1040, height: 800 } } as const;
/** Of the themes of high contrast only the colours are others. */
export const LOOKS: readonly (readonly [ThemeName, keyof typeof WIDTHS])[] = [
  ['light', 'narrow'],
  ['light', 'wide'],
  ['dark', 'wide'],
  ['contrast', 'wide'],
  ['contrast-light', 'wide'],
  ['dark', 'narrow'],
];
/** Contrast of the least word may be told by a hair less than it is, by rounding of colours. */
const ROUNDED = 0.02;

export async function judge(page: Page, name: string): Promise<void> {
  await page.screenshot({ path: join(SHOTS, `${name}.png`) });
  const { words, troubles } = await look(page);
  assert.ok(words.length > 3, `${name}: ${words.length} words`);
  assert.deepEqual(troubles, [], name);
  const dim = words.filter((w) => w.ratio < w.wanted - ROUNDED).map((w) => `${w.text}: ${w.ratio.toFixed(2)}`);
  assert.deepEqual(dim, [], name);
}
