/** The sheet as it is printed: PDF and HTML, drawn from the same pages. */
import type { Language } from './language';
import type { Paper } from './page';
import { sheetOf } from './sheet';
import { htmlOf } from './write/html';
import { type PdfKit, pdfOf } from './write/pdf';
import type { SheetRequest, SheetWriter } from './writer';

export interface Printing {
  readonly paper: Paper;
  readonly language: Language;
}

export function htmlSheet(printing: Printing): SheetWriter {
  return {
    extensions: ['.html', '.htm'],
    title: 'Set-up sheet as HTML: pages to look at and to print',
    write: async (request) => {
      const sheet = sheetOf(request, printing);
      return { bytes: new TextEncoder().encode(htmlOf(sheet, printing.paper)), notes: sheet.notes };
    },
  };
}

/** `kit`: asked for when a sheet is written, and not before. */
export function pdfSheet(printing: Printing, kit: () => Promise<PdfKit>): SheetWriter {
  return {
    extensions: ['.pdf'],
    title: 'Set-up sheet as PDF: pages to print',
    write: async (request: SheetRequest) => {
      const sheet = sheetOf(request, printing);
      return { bytes: await pdfOf(sheet, printing.paper, await kit(), request.when), notes: sheet.notes };
    },
  };
}
