/** The sheet as Markdown: every set-up's rows as tables, for a repository or a screen. */

import { ExportError } from '../export/writer';
import { threadedBoss } from '../model/feature-kinds';
import type { Part } from '../model/model';
import { timeOf } from '../planning/times';
import { passesOfPart, type Row, type SetupPasses } from '../process/passes';
import { minutesText } from '../report/cuts';
import type { ReadPart } from '../rules/judging';
import { escapeMarkdown } from '../text/markdown';
import { benchLists } from './bench';
import { type Language, wordsOf } from './language';
import { askedInWords } from './part/asked';
import { briefOf } from './part/brief';
import { notesOn, type SheetPart, sheetPartOf } from './sheet-part';
import {
  called,
  depthWords,
  dialWords,
  edgesWords,
  feedWords,
  holdingLines,
  inTurns,
  looksWords,
  measureWords,
  passWords,
  place,
  size,
  speedWords,
  station,
  type Told,
  touchWords,
  unsetWords,
  whereWords,
} from './words';
import type { SheetRequest, SheetWriter } from './writer';

export function markdownSheet(language: Language): SheetWriter {
  return {
    extensions: ['.md'],
    title: 'Set-up sheet as Markdown',
    write: async (request) => {
      const { lines, notes } = sheetLines(request, language);
      return { bytes: new TextEncoder().encode(`${lines.join('\n')}\n`), notes };
    },
  };
}

interface Lines {
  readonly lines: readonly string[];
  readonly notes: readonly string[];
}

/** Throws `ExportError` where there is no set-up to tell of. */
export function sheetLines(request: SheetRequest, language: Language): Lines {
  const made = sheetPartOf(request.checked, request.quantity === undefined ? {} : { quantity: request.quantity });
  if (made.source === 'none')
    throw new ExportError('it has no set-ups, and no plan cuts all of it; `scribeline plan` shows what is left');
  const { read } = made;
  const words: Told = { ...wordsOf(language), units: read.part.units };
  const passes = passesOfPart({ part: read.part, solid: read.solid, shop: read.shop });
  const lines = [
    ...head(request, made, words),
    ...passes.flatMap((p) => setupLines(p, read, { ...words, ...(p.dial && { dial: p.dial }) })),
    ...benchLines(read, words),
    '',
    '---',
    '',
    words.markdown.foot(request.mark),
  ];
  return { lines, notes: notesOn(made) };
}

function head({ file, mark, when, creator }: SheetRequest, made: SheetPart, w: Told): readonly string[] {
  const { part, shop } = made.read;
  const title = escapeMarkdown(part.title ?? part.name);
  const of = [
    part.name,
    ...(part.revision ? [w.part.revision(part.revision)] : []),
    part.material?.name ?? w.markdown.noMaterial,
    w.part.pieces(part.quantity),
    shop.name,
  ];
  return [
    `# ${title}`,
    '',
    of.map(escapeMarkdown).join(' · '),
    '',
    w.markdown.from(escapeMarkdown(file), mark, when.toISOString().slice(0, 10), creator),
    '',
    w.markdown.lengthsIn(part.units),
    '',
    ...[...askedInWords(part, w.part, (name) => name), ...remarked(part, w)].flatMap((l) => [
      `- ${escapeMarkdown(l)}`,
      '',
    ]),
    `**${w.markdown.caution}**`,
    ...(made.errors > 0 ? ['', `**${w.part.errors(made.errors)}**`] : []),
    ...(made.source === 'planned' ? ['', w.part.planned] : []),
  ];
}

/** Features of which more is said than a table of passes shows: a surface, a remark for whoever makes it. */
function remarked(part: Part, w: Told): readonly string[] {
  return part.features
    .filter((f) => f.finish || f.note || threadedBoss(f))
    .map((f) => `${f.name}: ${briefOf(f, part, w.part, (name) => name)}`);
}

function setupLines(s: SetupPasses, read: ReadPart, w: Told): readonly string[] {
  const { setup, then, index, count, readOut, machine } = s;
  const { markdown: m, part } = w;
  const time = timeOf([setup], read);
  const minutes = (of: readonly [number, number]) => minutesText(of, part.to);
  const zeroAt = (k: 'X' | 'Y' | 'Z') =>
    k === 'Z' && s.heightsFrom
      ? m.alongSpindle(part.faces[s.heightsFrom.on as keyof typeof part.faces] ?? s.heightsFrom.on)
      : m.zeroAt(k, part.faces[readOut[k].from].toLowerCase());
  const from = (['X', 'Y', 'Z'] as const).map(zeroAt).join(', ');
  return [
    '',
    `## ${m.setup(index + 1, count, escapeMarkdown(setup.name), part.faces[then.up!])}`,
    '',
    `${escapeMarkdown(machine?.name ?? m.noMachine)} · ${m.takes(minutes(time.firstPiece), minutes(time.eachFurther))} · ${m.counts(from, s.dial !== undefined)}`,
    '',
    ...(setup.note ? [escapeMarkdown(setup.note), ''] : []),
    `### ${m.hold}`,
    '',
    ...holdingLines(s.holding, w).map((l) => `- [ ] ${escapeMarkdown(l)}`),
    '',
    `### ${m.zero}`,
    '',
    ...s.zeros.map((t) => `- [ ] ${escapeMarkdown(touchWords(t, w))}`),
    '',
    `### ${m.passes}`,
    ...(s.dial ? ['', w.setup.dials(...dialWords(s.dial))] : []),
    '',
    `| | ${m.titles.join(' | ')} |`,
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...s.rows.map((row) => rowLine(row, w)),
    ...(s.measures.length === 0
      ? []
      : [
          '',
          `### ${m.before}`,
          '',
          ...s.measures.map((row) => `- [ ] ${escapeMarkdown(measureWords(row, w))}: ______`),
        ]),
    '',
    m.moved,
  ];
}

/** Behind the set-ups, a list of its own. */
function benchLines(read: ReadPart, w: Told): readonly string[] {
  const lists = benchLists(read, w);
  if (lists.length === 0) return [];
  return [
    '',
    `## ${w.bench.title}`,
    '',
    `**${w.bench.caution}**`,
    ...lists.flatMap(({ title, lines }) => [
      '',
      `### ${escapeMarkdown(title)}`,
      '',
      ...lines.map((l) => `- [ ] ${escapeMarkdown(l)}`),
    ]),
  ];
}

function rowLine(row: Row, w: Told): string {
  const { markdown: m } = w;
  const wide = (mark: string, words: string, stops = false) =>
    `| ${mark} | ${stops ? `**${escapeMarkdown(words)}**` : escapeMarkdown(words)} | | | | | | |`;
  switch (row.kind) {
    case 'pass': {
      const cells = [
        String(row.number),
        passWords(row, w),
        speedWords(row.speed, w),
        feedWords(row.feed, w),
        `${unsetWords(row, w)}${row.samePlace ? m.samePlace : whereWords(row.where, w)}`,
        depthWords(row, w),
        m.ways[row.direction],
        looksWords(row, w),
      ];
      return `| ${cells.map(escapeMarkdown).join(' | ')} |`;
    }
    case 'measure':
      return row.stops ? wide(m.stop, `${measureWords(row, w)}; ${m.halve}`, true) : wide('', measureWords(row, w));
    case 'indicate':
      return wide(m.stop, m.sweep(row.of, size(row.totalMm, w), station(row.at, w)), true);
    case 'touch':
      return wide('', touchWords(row.touch, w));
    case 'touch z':
      return wide('', `${m.toolIn(row.tool.name, place(row.touch.showsMm, w))}${inTurns(row.touch.showsMm, w)}`);
    case 'file':
      return wide('', m.file(row.of, size(row.sizeMm, w), edgesWords(row.edges, w), row.afterSetup));
    case 'saw':
      return wide(
        '',
        m.saw(called(row.of, w), size(row.lengthMm, w), row.leavesMm > 0 ? size(row.leavesMm, w) : undefined),
      );
    case 'missing':
      return wide('!', m.missing(row.of, row.wanted), true);
    default:
      return row satisfies never;
  }
}
