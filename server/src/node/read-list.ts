/** A list of cutters as text. Unlike our own documents it may be in what a spreadsheet or an older program writes. */
import { isUtf8 } from 'node:buffer';
import { bytesOf } from './read-file';

/** UTF-8, UTF-16 by its mark, else Windows-1252, which has every sign that such a list needs. */
export async function readList(path: string): Promise<string | { readonly why: string }> {
  const bytes = await bytesOf(path);
  if (!Buffer.isBuffer(bytes)) return bytes ?? { why: 'is not there' };
  const [a, b] = bytes;
  const encoding =
    a === 0xff && b === 0xfe
      ? 'utf-16le'
      : a === 0xfe && b === 0xff
        ? 'utf-16be'
        : isUtf8(bytes)
          ? 'utf-8'
          : 'windows-1252';
  const text = new TextDecoder(encoding).decode(bytes);
  return text.includes('\0') ? { why: 'is no text (it has zero bytes in it)' } : text;
}
