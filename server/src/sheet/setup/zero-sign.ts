/** Where zero is: a circle of four quarters, two of them black. */
import { arc, line } from '../../geometry/2d/edge';
import type { Mark } from '../draw/marks';
import { at, ring } from '../draw/shapes';

const RADIUS = 2;

export function zeroSign(x: number, y: number): Mark[] {
  const quarter = (dx: number, dy: number) => {
    const [a, b, centre] = [at(x + dx * RADIUS, y), at(x, y + dy * RADIUS), at(x, y)];
    return [line(centre, a), arc(a, b, centre, dx * dy > 0), line(b, centre)];
  };
  return [
    { type: 'fill', loops: [quarter(1, -1)] },
    { type: 'fill', loops: [quarter(-1, 1)] },
    ring(x, y, RADIUS, 0.35),
  ];
}
