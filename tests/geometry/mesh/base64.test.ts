/** base64 as RFC 4648 has it: its own test vectors (section 10), and whatever Node makes of the same bytes. */
import assert from 'node:assert/strict';
import { base64Of, bytesOf } from '../../../server/src/geometry/mesh/base64';

describe('base64', () => {
  it('is that of RFC 4648, section 10', () => {
    const vectors = ['', 'Zg==', 'Zm8=', 'Zm9v', 'Zm9vYg==', 'Zm9vYmE=', 'Zm9vYmFy'];
    for (const [n, wanted] of vectors.entries())
      assert.equal(base64Of(new TextEncoder().encode('foobar'.slice(0, n))), wanted);
  });

  it('is what Node writes, over the ends of lots, and comes back', () => {
    const most = 0x6000 * 2 + 5;
    const bytes = Uint8Array.from({ length: most }, (_, i) => (i * 2654435761) >>> 13);
    for (const length of [1, 2, 3, 255, 0x6000 - 1, 0x6000, 0x6000 + 1, 0x6000 + 2, most - 2, most - 1, most]) {
      const some = bytes.subarray(most - length);
      const text = base64Of(some);
      assert.equal(text, Buffer.from(some).toString('base64'));
      assert.deepEqual(Buffer.from(bytesOf(text)), Buffer.from(some));
    }
    const numbers = Float32Array.of(1, -0.5, Math.PI, Number.POSITIVE_INFINITY, 1e-30);
    assert.deepEqual(new Float32Array(bytesOf(base64Of(numbers))), numbers);
  });
});
