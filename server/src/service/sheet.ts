/** A part's sheet for an editor, drawn as SVG or printed as PDF. */
import { unwritable } from '../export/writer';
import { base64Of } from '../geometry/mesh/base64';
import type { Sheet } from '../sheet/page';
import { sheetOf } from '../sheet/sheet';
import { svgOf } from '../sheet/write/html';
import { type PdfKit, pdfOf } from '../sheet/write/pdf';
import type { SheetAnswer, SheetParams } from './sheet-protocol';
import type { PartSnapshot } from './snapshot';

/** What is told with the question; plain, for it goes to another thread. */
export interface SheetTold {
  readonly file: string;
  readonly mark: string;
  readonly creator: string;
  /** Milliseconds since 1970. */
  readonly when: number;
  readonly language: SheetParams['language'];
  /** A job's, in place of the part's. */
  readonly quantity?: number;
}

/** The pages, or why there are none. */
export type SheetReply = { readonly sheet: Sheet } | { readonly trouble: string };

export function sheetReply({ checked }: PartSnapshot, { when, language, ...told }: SheetTold): SheetReply {
  const why = unwritable(checked);
  if (why) return { trouble: `${checked.part.name} has no sheet: ${why}.` };
  return { sheet: sheetOf({ checked, ...told, when: new Date(when) }, { language }) };
}

export async function sheetAnswer(
  reply: SheetReply,
  { paper, as }: SheetParams,
  when: Date,
  kit: (() => Promise<PdfKit>) | undefined,
): Promise<SheetAnswer> {
  if ('trouble' in reply) return reply;
  const { sheet } = reply;
  if (as === 'svg') {
    const data = sheet.pages.map((page) => svgOf(page, paper, `${sheet.title}, ${page.number}`));
    return { title: sheet.title, notes: sheet.notes, data };
  }
  if (!kit) return { trouble: 'No PDF can be written here: this server runs without its printing files.' };
  const bytes = await pdfOf(sheet, paper, await kit(), when);
  return { title: sheet.title, notes: sheet.notes, base64: base64Of(bytes) };
}

/** Of a path or an address: as the folder shows it. */
export function fileName(path: string): string {
  const name = path.slice(path.lastIndexOf('/') + 1);
  try {
    return path.includes(':') ? decodeURIComponent(name) : name;
  } catch {
    return name;
  }
}
