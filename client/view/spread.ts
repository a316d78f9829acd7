/** Labels beside their places without covering one another: each goes to the first free of a few spots round its place. */

interface Placed {
  readonly x: number;
  readonly y: number;
}
export interface Label extends Placed {
  readonly width: number;
  readonly height: number;
}

const GAP = 9;

/**
 * Left upper corners, for places and sizes in pixels, in the order of their weight: the first is never moved for the
 * others. Spots inside a picture `width` pixels wide come first.
 */
export function spread(labels: readonly Label[], width = Number.POSITIVE_INFINITY): readonly Placed[] {
  const taken: Label[] = [];
  return labels.map((label) => {
    const inside = ({ x }: Placed) => x >= 0 && x + label.width <= width;
    const all = spotsRound(label);
    const spots = [...all.filter(inside), ...all.filter((s) => !inside(s))];
    const free = spots.find((spot) => !taken.some((t) => covers(t, { ...label, ...spot })));
    const spot = free ?? spots[0]!;
    taken.push({ ...label, ...spot });
    return spot;
  });
}

/** Right of it, left of it, then further below and above. */
function spotsRound({ x, y, width, height }: Label): readonly Placed[] {
  const [right, left] = [x + GAP, x - GAP - width];
  const rows = [0, 1, -1, 2, -2, 3, -3].map((row) => y - height / 2 + row * (height + 2));
  return rows.flatMap((top) => [
    { x: right, y: top },
    { x: left, y: top },
  ]);
}

function covers(a: Label, b: Label): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
