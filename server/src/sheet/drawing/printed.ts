/** Drawings as files: PDF, SVG and DXF from the same pages; several parts in one file, in their order. */
import type { Exported, ExportRequest, Writer } from '../../export/writer';
import type { Language } from '../language';
import type { Paper, Sheet } from '../page';
import { dxfOf } from '../write/dxf';
import { type PdfKit, pdfOf } from '../write/pdf';
import { svgFileOf } from '../write/svg';
import { type DrawingOptions, drawingOf } from './drawing';

interface Format {
  readonly extension: string;
  readonly title: string;
  bytes(sheets: readonly Sheet[], paper: Paper, when: Date): Promise<Uint8Array>;
}

const text =
  (of: (sheets: readonly Sheet[], paper: Paper) => string) => async (sheets: readonly Sheet[], paper: Paper) =>
    new TextEncoder().encode(of(sheets, paper));

/** Of what is not said: A4, or A3 where it must be; Letter and Tabloid for a shop in inches. */
export interface DrawingPrint {
  readonly paper?: Paper;
  readonly size?: DrawingOptions['size'];
  readonly language?: Language;
}

interface DrawingWriter extends Writer {
  /** All in one file. */
  together(requests: readonly ExportRequest[]): Promise<Exported>;
}

/** `kit`: asked for when a PDF is written, and not before. */
export function drawingWriters(kit: () => Promise<PdfKit>, printing: DrawingPrint = {}): readonly DrawingWriter[] {
  const formats: readonly Format[] = [
    {
      extension: '.pdf',
      title: 'PDF: a dimensioned drawing to print',
      bytes: async (sheets, paper, when) => pdfOf(joined(sheets), paper, await kit(), when),
    },
    { extension: '.svg', title: 'SVG: a dimensioned drawing for any browser', bytes: text(svgFileOf) },
    { extension: '.dxf', title: 'DXF: a dimensioned drawing, a block a sheet', bytes: text(dxfOf) },
  ];
  return formats.map((format): DrawingWriter => {
    const together = (requests: readonly ExportRequest[]) => written(format, requests, printing);
    const { title, extension } = format;
    return { extensions: [extension], title, drawing: true, together, write: (request) => together([request]) };
  });
}

async function written(
  format: Format,
  requests: readonly ExportRequest[],
  { paper, size, language }: DrawingPrint,
): Promise<Exported> {
  const [first] = requests;
  if (!first) return { bytes: new Uint8Array(), notes: [] };
  const sheets = requests.map(({ checked, quantity }) =>
    drawingOf(checked, {
      ...(language && { language }),
      ...(size && { size }),
      ...(quantity !== undefined && { quantity }),
    }),
  );
  const usual: Paper = first.checked.shop.units === 'in' ? 'letter' : 'a4';
  return {
    bytes: await format.bytes(sheets, paper ?? usual, first.when),
    notes: sheets.flatMap((s, i) =>
      s.notes.map((note) => (sheets.length > 1 ? `${requests[i]!.checked.part.name}: ${note}` : note)),
    ),
  };
}

function joined(sheets: readonly Sheet[]): Sheet {
  const [first] = sheets;
  return {
    title: sheets.map((s) => s.title).join(', '),
    language: first?.language ?? 'en',
    pages: sheets.flatMap((s) => s.pages),
    notes: [],
  };
}
