/** The doors load at once: what few runs need lies beside them. */
import assert from 'node:assert/strict';
import { statSync } from 'node:fs';
import { resolve } from 'node:path';

const MOST_BYTES = 2_200_000;

describe('the bundles', () => {
  for (const door of ['cli.js', 'server.js'])
    it(`${door} is within 2.2 MB`, () => {
      const { size } = statSync(resolve(__dirname, '../../dist', door));
      assert.ok(size <= MOST_BYTES, `${size} bytes: see what can lie beside (BESIDE in build.mjs)`);
    });
});
