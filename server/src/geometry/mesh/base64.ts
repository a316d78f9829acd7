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

const CODES = Uint8Array.from(LETTERS, (c) => c.charCodeAt(0));
const PAD = '='.charCodeAt(0);

function lot(bytes: Uint8Array, from: number, to: number): string {
  const out = new Uint8Array(Math.ceil((to - from) / 3) * 4);
  let at = 0;
  for (let i = from; i < to; i += 3) {
    const word = (bytes[i]! << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    out[at++] = CODES[word >> 18]!;
    out[at++] = CODES[(word >> 12) & 63]!;
    out[at++] = i + 1 < to ? CODES[(word >> 6) & 63]! : PAD;
    out[at++] = i + 2 < to ? CODES[word & 63]! : PAD;
  }
  return String.fromCharCode.apply(null, out as unknown as number[]);
}

/** The other way. */
export function bytesOf(base64: string): ArrayBuffer {
  const text = atob(base64);
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) bytes[i] = text.charCodeAt(i);
  return bytes.buffer;
}
