/** What papers and pages are made with in a browser: the PDF library, the fonts, the view’s script, and what a paper is told by. */
import { sha256 } from '@noble/hashes/sha2';
import { COMPARE_BODY, PART_BODY } from '../../../client/view/body';
import { base64Of } from '../geometry/mesh/base64';
import type { PageKit } from '../page/frame';
import type { PdfDocument, PdfKit } from '../sheet/write/pdf';
import type { Own } from './own';
import { addressOf } from './threads';

interface Library {
  readonly default: new (options: object) => PdfDocument;
}

/** Loaded once, when something is printed. */
export function printingWith(own: Own): () => Promise<PdfKit> {
  let loaded: Promise<PdfKit> | undefined;
  const load = async (): Promise<PdfKit> => {
    const [script, plain, bold] = await Promise.all([
      own.bytes('web-pdf.js'),
      own.bytes('fonts/DejaVuSansCondensed.ttf'),
      own.bytes('fonts/DejaVuSansCondensed-Bold.ttf'),
    ]);
    const address = addressOf([script]);
    const { default: PDFDocument } = (await import(address)) as Library;
    return { document: (options) => new PDFDocument(options), plain, bold };
  };
  return () => {
    loaded ??= load();
    return loaded;
  };
}

export async function pageKitOf(own: Own): Promise<PageKit> {
  const [script, view, page] = await Promise.all([own.text('view.js'), own.text('view.css'), own.text('page.css')]);
  return {
    script,
    style: `${view}\n${page}`,
    bodies: { part: PART_BODY, compare: COMPARE_BODY },
    hash: (text) => base64Of(sha256(text)),
  };
}

/** Eight hexadecimal digits, the same as the server on Node tells: `server/src/node/mark.ts`. */
export function markOf(texts: readonly string[]): string {
  const hash = sha256.create();
  for (const text of texts) hash.update(`${text.length}:`).update(text);
  return [...hash.digest().slice(0, MARK_BYTES)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
const MARK_BYTES = 4;
