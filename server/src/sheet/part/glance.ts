/** The set-ups at a glance: what is up, the work in the jaws from their end, what is cut, a box for each piece. */
import type { Setup } from '../../model/model';
import { type Figure, moved } from '../draw/marks';
import { column, framed } from '../draw/stack';
import { bold, type Inline, LARGE, NUMBER, SMALL, textFigure } from '../draw/text';
import type { SheetWords } from '../language/en';
import { FIELD } from '../page';
import { endSketch } from '../setup/end-view';
import { lyingOf } from '../setup/lying';
import type { SheetPart } from '../sheet-part';
import { num } from './numbers';

const ABREAST = 3;
const GAP = 2;
const PICTURE = 19;
const PAD = 1.8;

export function glanceFigure(made: SheetPart, words: SheetWords, called: (name: string) => string): Figure {
  const w = (FIELD.w - (ABREAST - 1) * GAP) / ABREAST;
  const boxes = made.setups.map((s, i) => boxOf(s, i, w, { made, words, called }));
  const rows: Figure[] = [];
  for (let i = 0; i < boxes.length; i += ABREAST) {
    const row = boxes.slice(i, i + ABREAST);
    const high = Math.max(...row.map((b) => b.h)) + 2 * PAD;
    const marks = row.flatMap((b, k) => moved(framed(b, w, { pad: PAD, high }).marks, k * (w + GAP), 0));
    rows.push({ marks, w: FIELD.w, h: high });
  }
  return column(rows, GAP);
}

interface Glance {
  readonly made: SheetPart;
  readonly words: SheetWords;
  readonly called: (name: string) => string;
}

function boxOf(setup: Setup, index: number, w: number, { made, words, called }: Glance): Figure {
  const inner = w - 2 * PAD;
  const { read, time } = made;
  const { units, quantity } = read.part;
  const up = setup.up ? words.up(words.faces[setup.up.name]) : setup.name;
  const minutes = time?.setups[index];
  const spent = minutes ? minutesOf(minutes, words) : '';
  const right = textFigure(spent, { width: inner, align: 'right' });
  const head = textFigure([bold(String(index + 1), LARGE), ' ', bold(up, NUMBER)], {
    width: inner - textFigure(spent).w - 1,
  });
  const lying = lyingOf(setup, read);
  const picture = lying && endSketch(lying, words, { w: inner, h: PICTURE });
  const cuts = [...new Set(setup.cuts.map((c) => called(c.name)))].join(' · ');
  const held = lying?.seating.held;
  const hold: string[] = [];
  if (held) {
    hold.push(words.grip(num(held.gripMm, units)));
    hold.push(held.parallelsMm > 0 ? words.onParallels(num(held.parallelsMm, units)) : words.onBed);
  } else if (setup.hold) hold.push(words.holders[setup.hold.type]);
  if (held) hold.push(setup.hold?.stop ? words.stopAt(called(setup.hold.stop.name)) : words.noStop);
  const boxes =
    quantity <= 3
      ? Array.from({ length: quantity }, (_, i) => `☐\u00a0${words.piece(i + 1).replaceAll(' ', '\u00a0')}`).join('  ')
      : `☐ ${words.eachPiece(quantity)}`;
  const top: Figure = { marks: [...head.marks, ...right.marks], w: inner, h: head.h + (head.h > 9 ? 0 : 1) };
  const shown: Figure = picture
    ? {
        marks: moved(picture.marks, 0, PICTURE - picture.h),
        w: inner,
        h: PICTURE + 1,
      }
    : { marks: [], w: 0, h: 0 };
  const texts: Inline[] = [bold(cuts), hold.join(' · '), boxes];
  return column([top, shown, ...texts.map((t) => textFigure(t, { width: inner, cap: SMALL }))]);
}

function minutesOf(t: NonNullable<SheetPart['time']>['setups'][number], words: SheetWords): string {
  const low = t.cutting[0] + t.settingUp[0] + t.changing[0];
  const high = t.cutting[1] + t.settingUp[1] + t.changing[1];
  return words.minutes(String(Math.round(low)), String(Math.round(high)));
}
