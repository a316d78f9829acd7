/** The sheet as Markdown: every set-up's rows as tables, for a repository or a screen. */
import { ExportError } from '../export/writer';
import { timeOf } from '../planning/times';
import { passesOfPart, type Row, type SetupPasses } from '../process/passes';
import type { ReadPart } from '../rules/judging';
import { escapeMarkdown } from '../text/markdown';
import { EN } from './language/en';
import { notesOn, type SheetPart, sheetPartOf } from './sheet-part';
import {
  CAUTION,
  depthWords,
  feedWords,
  holdingLines,
  looksWords,
  measureWords,
  minutesWords,
  passWords,
  place,
  size,
  speedWords,
  station,
  touchWords,
  unsetWords,
  whereWords,
} from './words';
import type { SheetRequest, SheetWriter } from './writer';

export const markdownSheet: SheetWriter = {
  extensions: ['.md'],
  title: 'Set-up sheet as Markdown',
  write: async (request) => {
    const made = sheetPartOf(request.checked, request.quantity === undefined ? {} : { quantity: request.quantity });
    if (made.source === 'none')
      throw new ExportError('it has no set-ups, and no plan cuts all of it; `scribeline plan` tells what is left');
    const { read } = made;
    const passes = passesOfPart({ part: read.part, solid: read.solid, shop: read.shop });
    const lines = [...head(request, made), ...passes.flatMap((p) => setupLines(p, read)), ...foot(request)];
    return { bytes: new TextEncoder().encode(`${lines.join('\n')}\n`), notes: notesOn(made) };
  },
};

function head({ file, mark, when, creator }: SheetRequest, { read, source, errors }: SheetPart): readonly string[] {
  const { part, shop } = read;
  const title = escapeMarkdown(part.title ?? part.name);
  return [
    `# ${title}`,
    '',
    `${escapeMarkdown(part.name)}${part.revision ? ` · rev. ${escapeMarkdown(part.revision)}` : ''} · ${escapeMarkdown(part.material?.name ?? 'no material')} · make ${part.quantity} · ${escapeMarkdown(shop.name)}`,
    '',
    `From ${escapeMarkdown(file)}, mark **${mark}**, ${when.toISOString().slice(0, 10)}, ${creator}. If the spec changed, this paper is void.`,
    '',
    `**${CAUTION}**`,
    ...(errors > 0 ? ['', `**${EN.errors(errors)}**`] : []),
    ...(source === 'planned' ? ['', EN.planned] : []),
  ];
}

function foot({ mark }: SheetRequest): readonly string[] {
  return [
    '',
    '---',
    '',
    `Mark ${mark}: over part, shop and program. If the spec changed, this paper is void. Changed at the machine (speed, feed, trouble): write it down and tell the spec.`,
  ];
}

function setupLines(s: SetupPasses, read: ReadPart): readonly string[] {
  const { setup, then, index, count, readOut, machine } = s;
  const time = timeOf([setup], read);
  const from = (['X', 'Y', 'Z'] as const).map((k) => `${k} 0 at ${readOut[k].from}`).join(', ');
  return [
    '',
    `## Set-up ${index + 1} of ${count}: ${escapeMarkdown(setup.name)}, ${then.up!.toUpperCase()} up`,
    '',
    `${escapeMarkdown(machine?.name ?? 'no machine')} · first piece ${minutesWords(time.firstPiece)}, each further ${minutesWords(time.eachFurther)} · the read-out counts from the finished part: ${from}; X grows to the right, Y to the back, Z up`,
    '',
    '### Hold',
    '',
    ...holdingLines(s.holding).map((l) => `- [ ] ${escapeMarkdown(l)}`),
    '',
    '### Zero',
    '',
    ...s.zeros.map((t) => `- [ ] ${escapeMarkdown(touchWords(t))}`),
    '',
    '### Passes',
    ...(s.dial
      ? [
          '',
          `Dials count ${s.dial.unit}: ${size(s.dial.turnMm, 3)} mm a turn, ${size(s.dial.markMm, 4)} mm a mark; come to each place from one side.`,
        ]
      : []),
    '',
    '| | tool · cut | rpm | feed | go to | depth | way | look |',
    '| --- | --- | --- | --- | --- | --- | --- | --- |',
    ...s.rows.map((row) => rowLine(row, s.dial)),
    ...(s.measures.length === 0
      ? []
      : [
          '',
          '### Before it leaves the vise',
          '',
          ...s.measures.map((m) => `- [ ] ${escapeMarkdown(measureWords(m))}: ______`),
        ]),
    '',
    'Moved, bumped, unclamped: stop; touch every zero again before anything is cut. The shop’s rules and its trained staff go before this sheet.',
  ];
}

function rowLine(row: Row, dial: SetupPasses['dial']): string {
  const wide = (mark: string, words: string, stops = false) =>
    `| ${mark} | ${stops ? `**${escapeMarkdown(words)}**` : escapeMarkdown(words)} | | | | | | |`;
  switch (row.kind) {
    case 'pass': {
      const cells = [
        String(row.number),
        passWords(row),
        speedWords(row.speed),
        feedWords(row.feed),
        `${unsetWords(row)}${row.samePlace ? 'same place: lock both' : whereWords(row.where, dial)}`,
        depthWords(row),
        row.direction,
        looksWords(row.looks),
      ];
      return `| ${cells.map(escapeMarkdown).join(' | ')} |`;
    }
    case 'measure':
      return row.stops
        ? wide('STOP', `${measureWords(row)}; cut half of what is left, measure again`, true)
        : wide('', measureWords(row));
    case 'indicate':
      return wide('STOP', `sweep ${row.of}, ${size(row.totalMm)} in all, set ${station(row.at)}`, true);
    case 'touch':
      return wide('', touchWords(row.touch));
    case 'touch z':
      return wide('', `${row.tool.name} in; Z at touch ${place(row.touch.showsMm)}`);
    case 'file':
      return wide(
        '',
        `${row.of}: file ${size(row.sizeMm)} at ${row.edges.map((e) => e.join('/')).join(', ')} after set-up ${row.afterSetup}`,
      );
    case 'missing':
      return wide('!', `${row.of}: nothing on hand does it: ${row.wanted}`, true);
    default:
      return row satisfies never;
  }
}
