/** The line of a measured length on the screen, as drawings have it: across the gap, or from outside where there is no room. */

interface Place {
  readonly x: number;
  readonly y: number;
}

/** Shorter gaps than this, in pixels, are shown by strokes from outside. */
const ROOMY = 26;
const OUTSIDE = 16;
const TICK = 5;
const HEAD = 6;

/** An SVG path for the length from `a` to `b`; a small cross where both are one place on the screen. */
export function dimensionPath(a: Place, b: Place): string {
  const gap = Math.hypot(b.x - a.x, b.y - a.y);
  if (gap < 0.5) return `${stroke(a, 1, 1, TICK)}${stroke(a, 1, -1, TICK)}`;
  const [x, y] = [(b.x - a.x) / gap, (b.y - a.y) / gap];
  if (gap >= ROOMY) {
    const ticks = `${stroke(a, -y, x, TICK)}${stroke(b, -y, x, TICK)}`;
    return `M${at(a)}L${at(b)}${head(a, x, y)}${head(b, -x, -y)}${ticks}`;
  }
  const from = (p: Place, sign: number) => ({ x: p.x + sign * x * OUTSIDE, y: p.y + sign * y * OUTSIDE });
  return `M${at(from(a, -1))}L${at(a)}M${at(b)}L${at(from(b, 1))}${head(a, -x, -y)}${head(b, x, y)}`;
}

function stroke({ x, y }: Place, dx: number, dy: number, half: number): string {
  return `M${at({ x: x - dx * half, y: y - dy * half })}L${at({ x: x + dx * half, y: y + dy * half })}`;
}

/** An arrowhead with its tip at `p`, its barbs lying back along `x`, `y`. */
function head(p: Place, x: number, y: number): string {
  const barb = (side: number) => ({
    x: p.x + HEAD * (x - side * 0.45 * y),
    y: p.y + HEAD * (y + side * 0.45 * x),
  });
  return `M${at(barb(1))}L${at(p)}L${at(barb(-1))}`;
}

function at({ x, y }: Place): string {
  return `${x.toFixed(1)} ${y.toFixed(1)}`;
}
