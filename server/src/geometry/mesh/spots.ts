/** Points by where they are, as single precision sees it: the same place has the same number. */
import type { Vec3 } from '../types';

export class Spots {
  #at = new Float32Array(3 * 256);
  #bits = new Uint32Array(this.#at.buffer);
  // a table of open addresses: a Map of strings would take longer than all the rest
  #table = new Int32Array(1024).fill(-1);
  #count = 0;

  get count(): number {
    return this.#count;
  }

  /** Three numbers from `i` on. */
  of(numbers: ArrayLike<number>, i: number): number {
    const slot = this.#slot(numbers, i);
    if (this.#table[slot]! >= 0) return this.#table[slot]!;
    const made = this.#count++;
    if (3 * made === this.#at.length) this.#widen();
    for (let k = 0; k < 3; k++) this.#at[3 * made + k] = numbers[i + k]! + 0;
    this.#table[slot] = made;
    if (2 * made > this.#table.length) this.#spread();
    return made;
  }

  /** −1 where there is none. */
  find(numbers: ArrayLike<number>, i: number): number {
    return this.#table[this.#slot(numbers, i)]!;
  }

  at(spot: number): Vec3 {
    return [this.#at[3 * spot]!, this.#at[3 * spot + 1]!, this.#at[3 * spot + 2]!];
  }

  /** The one with the point, or the free one where it would be. */
  #slot(numbers: ArrayLike<number>, i: number): number {
    const mask = this.#table.length - 1;
    const [x, y, z] = [numbers[i]!, numbers[i + 1]!, numbers[i + 2]!];
    PROBE[0] = x;
    PROBE[1] = y;
    PROBE[2] = z;
    let slot = hash(PROBE_BITS[0]!, PROBE_BITS[1]!, PROBE_BITS[2]!) & mask;
    for (;;) {
      const k = 3 * this.#table[slot]!;
      if (k < 0 || (this.#at[k] === x && this.#at[k + 1] === y && this.#at[k + 2] === z)) return slot;
      slot = (slot + 1) & mask;
    }
  }

  #widen(): void {
    const wider = new Float32Array(2 * this.#at.length);
    wider.set(this.#at);
    this.#at = wider;
    this.#bits = new Uint32Array(wider.buffer);
  }

  #spread(): void {
    const mask = 2 * this.#table.length - 1;
    this.#table = new Int32Array(mask + 1).fill(-1);
    for (let spot = 0; spot < this.#count; spot++) {
      const k = 3 * spot;
      let slot = hash(this.#bits[k]!, this.#bits[k + 1]!, this.#bits[k + 2]!) & mask;
      while (this.#table[slot]! >= 0) slot = (slot + 1) & mask;
      this.#table[slot] = spot;
    }
  }
}

const PROBE = new Float32Array(3);
const PROBE_BITS = new Uint32Array(PROBE.buffer);

/** −0 and 0 are one spot: the sign is left out. */
function hash(a: number, b: number, c: number): number {
  const n = Math.imul(a << 1, 0x9e3779b1) ^ Math.imul(b << 1, 0x85ebca6b) ^ Math.imul(c << 1, 0xc2b2ae35);
  return (n ^ (n >>> 15)) >>> 0;
}
