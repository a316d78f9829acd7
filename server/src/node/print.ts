/** What a sheet is printed with: the PDF library, and the fonts, which lie beside the bundle or in their package. */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { PdfDocument, PdfKit } from '../sheet/write/pdf';

const FONTS = { plain: 'DejaVuSansCondensed.ttf', bold: 'DejaVuSansCondensed-Bold.ttf' } as const;

/** By its name: what a bundle of it calls its default is not the same everywhere. */
interface Library {
  readonly PDFDocument: new (options: object) => PdfDocument;
}

let loaded: Promise<PdfKit> | undefined;

/** Loaded once. */
export function pdfKit(): Promise<PdfKit> {
  loaded ??= load();
  return loaded;
}

async function load(): Promise<PdfKit> {
  const [library, plain, bold] = await Promise.all([import('pdfkit'), font(FONTS.plain), font(FONTS.bold)]);
  const { PDFDocument } = library as unknown as Library;
  return { document: (options) => new PDFDocument(options), plain, bold };
}

async function font(name: string): Promise<Uint8Array> {
  const beside = join(__dirname, 'fonts', name);
  return readFile(existsSync(beside) ? beside : createRequire(__filename).resolve(`dejavu-fonts-ttf/ttf/${name}`));
}
