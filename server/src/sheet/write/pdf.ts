/**
 * Pages as PDF. The library that writes it and the fonts' bytes are handed in, so that nobody loads them who does not
 * print. The same pages give the same bytes: the file says no other time than it is told.
 */
import type { Fill, Mark, Stroke, Words } from '../draw/marks';
import { CAPITAL } from '../draw/metrics';
import { MARGIN, type Page, type Paper, paperSize, type Sheet } from '../page';
import { outlineOf, pathOf } from './path';

/** What is used of the library's document. */
export interface PdfDocument {
  registerFont(name: string, bytes: Uint8Array): unknown;
  font(name: string): unknown;
  fontSize(points: number): unknown;
  addPage(options: object): unknown;
  save(): unknown;
  restore(): unknown;
  scale(by: number): unknown;
  translate(x: number, y: number): unknown;
  rotate(degrees: number): unknown;
  path(d: string): unknown;
  lineWidth(mm: number): unknown;
  lineCap(cap: 'butt'): unknown;
  lineJoin(join: 'round'): unknown;
  dash(length: readonly number[]): unknown;
  undash(): unknown;
  stroke(colour: string): unknown;
  fill(colour: string, rule?: 'even-odd'): unknown;
  fillColor(colour: string): unknown;
  text(words: string, x: number, y: number, options: object): unknown;
  on(event: 'data', heard: (chunk: Uint8Array) => void): unknown;
  on(event: 'end', heard: () => void): unknown;
  end(): void;
}

export interface PdfKit {
  /** A new document, with the library's own options. */
  document(options: object): PdfDocument;
  readonly plain: Uint8Array;
  readonly bold: Uint8Array;
}

const POINTS_PER_MM = 72 / 25.4;
/** Letters stand by their own widths, as they were measured. */
const AS_MEASURED = { lineBreak: false, baseline: 'alphabetic', features: { kern: false, liga: false, clig: false } };

export async function pdfOf(sheet: Sheet, paper: Paper, kit: PdfKit, when: Date): Promise<Uint8Array> {
  const sizeOf = (page: Pick<Page, 'large'>) => {
    const { w, h } = paperSize(page, paper);
    return [w * POINTS_PER_MM, h * POINTS_PER_MM];
  };
  const info = { Title: sheet.title, Creator: 'Scribeline', Producer: 'Scribeline', CreationDate: when, ModDate: when };
  const doc = kit.document({
    autoFirstPage: false,
    font: null,
    size: sizeOf(sheet.pages[0] ?? {}),
    margin: 0,
    info,
    lang: sheet.language,
    pdfVersion: '1.7',
  });
  const chunks: Uint8Array[] = [];
  const ended = new Promise<void>((done) => {
    doc.on('data', (chunk) => chunks.push(chunk));
    doc.on('end', done);
  });
  doc.registerFont('plain', kit.plain);
  doc.registerFont('bold', kit.bold);
  for (const page of sheet.pages) {
    doc.addPage({ size: sizeOf(page), margin: 0 });
    doc.scale(POINTS_PER_MM);
    doc.translate(MARGIN.left, MARGIN.top);
    doc.lineCap('butt');
    doc.lineJoin('round');
    for (const mark of page.marks) draw(doc, mark);
  }
  doc.end();
  await ended;
  return joined(chunks);
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const bytes = new Uint8Array(chunks.reduce((sum, c) => sum + c.length, 0));
  let at = 0;
  for (const chunk of chunks) {
    bytes.set(chunk, at);
    at += chunk.length;
  }
  return bytes;
}

function draw(doc: PdfDocument, m: Mark): void {
  switch (m.type) {
    case 'stroke':
      stroke(doc, m);
      break;
    case 'fill':
      fill(doc, m);
      break;
    case 'sign':
      for (const s of m.strokes) draw(doc, s);
      break;
    case 'words':
      write(doc, m);
      break;
    default:
      m satisfies never;
  }
}

function stroke(doc: PdfDocument, { edges, width, dash, white }: Stroke): void {
  doc.lineWidth(width);
  if (dash) doc.dash(dash);
  doc.path(pathOf(edges));
  doc.stroke(white ? '#fff' : '#000');
  if (dash) doc.undash();
}

function fill(doc: PdfDocument, { loops, white }: Fill): void {
  doc.path(outlineOf(loops));
  doc.fill(white ? '#fff' : '#000');
}

function write(doc: PdfDocument, { x, y, words, cap, bold, white, turned }: Words): void {
  doc.font(bold ? 'bold' : 'plain');
  doc.fontSize(cap / CAPITAL);
  doc.fillColor(white ? '#fff' : '#000');
  if (!turned) {
    doc.text(words, x, y, AS_MEASURED);
    return;
  }
  doc.save();
  doc.translate(x, y);
  doc.rotate(-90);
  doc.text(words, 0, 0, AS_MEASURED);
  doc.restore();
}
