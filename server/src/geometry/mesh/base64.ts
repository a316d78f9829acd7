/** base64 (RFC 4648, section 4) of plain numbers, for channels that carry text. */

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';
const LOT = 0x6000;

/** Little-endian, as every machine that runs this is. */
export function base64Of(numbers: Float32Array | Uint32Array | Uint8Array): string {
  const bytes = new Uint8Array(numbers.buffer, numbers.byteOffset, numbers.byteLength);
  let text = '';
  for (let from = 0; from < bytes.length; from += LOT) text += lot(bytes, from, Math.min(from + LOT, bytes.length));
  return text;
}

/** Two letters for each twelve bits, the first in the lower byte: half as many look-ups as letters. */
const PAIRS = Uint16Array.from(
  { length: 4096 },
  (_, bits) => LETTERS.charCodeAt(bits >> 6) | (LETTERS.charCodeAt(bits & 63) << 8),
);
const PAD = '='.charCodeAt(0);
/** Letters only: every one of them is the same byte in ASCII and in UTF-8. */
const ASCII = new TextDecoder();

function lot(bytes: Uint8Array, from: number, to: number): string {
  const pairs = new Uint16Array(Math.ceil((to - from) / 3) * 2);
  const over = (to - from) % 3;
  let at = 0;
  for (let i = from; i < to - over; i += 3) {
    const word = (bytes[i]! << 16) | (bytes[i + 1]! << 8) | bytes[i + 2]!;
    pairs[at++] = PAIRS[word >> 12]!;
    pairs[at++] = PAIRS[word & 4095]!;
  }
  const letters = new Uint8Array(pairs.buffer);
  if (over > 0) {
    const word = (bytes[to - over]! << 16) | (over === 2 ? bytes[to - 1]! << 8 : 0);
    pairs[at++] = PAIRS[word >> 12]!;
    pairs[at] = PAIRS[word & 4095]!;
    letters.fill(PAD, letters.length - 3 + over);
  }
  return ASCII.decode(letters);
}

/** The other way. */
export function bytesOf(base64: string): ArrayBuffer {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}
