/** A PDF read back with pdf.js: the words of each page, and where they stand. */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';

interface ReadPage {
  readonly words: string;
  readonly width: number;
  readonly height: number;
}

export async function readPdf(bytes: Uint8Array): Promise<readonly ReadPage[]> {
  const document = await getDocument({ data: Uint8Array.from(bytes), verbosity: 0 }).promise;
  const pages: ReadPage[] = [];
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    const content = await page.getTextContent();
    const words = content.items.map((item) => ('str' in item ? item.str : '')).join(' ');
    const { width, height } = page.getViewport({ scale: 1 });
    pages.push({ words: words.replace(/\s+/g, ' '), width, height });
  }
  await document.destroy();
  return pages;
}
