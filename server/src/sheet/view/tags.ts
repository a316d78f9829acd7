/**
 * Letters at features: inside one where they fit, else beside it, in one of 16 directions and three distances, clear of
 * every line and word; else in a lane outside the picture, with a thin line to a dot.
 */
import type { Point2 } from '../../geometry/types';
import { boxOfWords, grown } from '../draw/boxes';
import type { Box, Mark, Words } from '../draw/marks';
import { extentOf } from '../draw/metrics';
import type { Placer } from '../draw/placer';
import { dot, polyline } from '../draw/shapes';
import { SMALL } from '../draw/text';

export interface Tagged {
  readonly letter: string;
  /** Middle and reach of what is tagged, on the page. */
  readonly at: Point2;
  readonly radius: number;
}

const DISTANCES = [1.5, 4, 8];
const CLEAR = 0.6;
/** Places down the lane that are tried. */
const MOST_IN_LANE = 60;

/** `lane`: where letters stand that found no place, down from its corner. */
export function tagsAt(
  tagged: readonly Tagged[],
  placer: Placer,
  lane: { readonly x: number; readonly y: number },
): Mark[] {
  return tagged.flatMap((tag) => {
    let down = lane.y;
    for (const place of placesFor(tag)) {
      const box = boxOfWords(place);
      const leader = leaderTo(tag, grown(box, CLEAR));
      if (!placer.isFree(box) || (leader && placer.isSaid(leader.edges))) continue;
      const marks = leader ? [place, leader] : [place];
      placer.add(marks);
      return marks;
    }
    // whatever stands in the lane already is passed, and so is a place whose line would run through a word
    for (let k = 0; k < MOST_IN_LANE; k++) {
      const word = wordAt(tag.letter, lane.x, down + SMALL);
      const to = polyline([
        [lane.x - 0.6, word.y - SMALL / 2],
        [tag.at.u, tag.at.v],
      ]);
      if (placer.isFree(boxOfWords(word)) && !placer.isSaid(to.edges)) {
        const marks = [word, to, dot(tag.at.u, tag.at.v, 0.5)];
        placer.add(marks);
        return marks;
      }
      down += SMALL / 2;
    }
    // found no room at all: it stands in the table with its place
    return [];
  });
}

function wordAt(letter: string, x: number, y: number): Words {
  const { width } = extentOf(letter, SMALL, true);
  return { type: 'words', x, y, words: letter, cap: SMALL, width, bold: true };
}

function* placesFor({ letter, at, radius }: Tagged): Generator<Words> {
  const { width } = extentOf(letter, SMALL, true);
  const put = (u: number, v: number) => wordAt(letter, u - width / 2, v + SMALL / 2);
  if (radius > SMALL) {
    yield put(at.u + radius * 0.4, at.v - radius * 0.4);
    yield put(at.u - radius * 0.4, at.v - radius * 0.4);
    yield put(at.u + radius * 0.4, at.v + radius * 0.4);
    yield put(at.u - radius * 0.4, at.v + radius * 0.4);
  }
  for (const distance of DISTANCES)
    for (let k = 0; k < 16; k++) {
      const angle = -Math.PI / 4 + (k * Math.PI) / 8;
      const far = radius + distance + SMALL / 2;
      yield put(at.u + far * Math.cos(angle), at.v + far * Math.sin(angle));
    }
}

/** From the feature's rim to the letter; none where the letter stands inside or close by. */
function leaderTo({ at, radius }: Tagged, box: Box) {
  const [x, y] = [(box.x0 + box.x1) / 2, (box.y0 + box.y1) / 2];
  const far = Math.hypot(x - at.u, y - at.v);
  const half = Math.hypot(box.x1 - box.x0, box.y1 - box.y0) / 2;
  if (far - radius < half + 1) return undefined;
  const [dx, dy] = [(x - at.u) / far, (y - at.v) / far];
  return polyline([
    [at.u + dx * radius, at.v + dy * radius],
    [x - dx * half, y - dy * half],
  ]);
}
