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
 * others. Inside a picture `width` and `height` pixels large; of places outside it, at its rim. Undefined where nothing is free.
 */
export function spread(
  labels: readonly Label[],
  width = Number.POSITIVE_INFINITY,
  height = Number.POSITIVE_INFINITY,
): readonly (Placed | undefined)[] {
  const taken: Label[] = [];
  return labels.map((label) => {
    const held = (spot: Placed): Placed => ({
      x: Math.max(0, Math.min(width - label.width, spot.x)),
      y: Math.max(0, Math.min(height - label.height, spot.y)),
    });
    const isIn = (spot: Placed) => held(spot).x === spot.x && held(spot).y === spot.y;
    const all = spotsRound(label);
    // A hidden label takes no room.
    if (label.width === 0) return all[0]!;
    const isFree = (spot: Placed) => !taken.some((t) => covers(t, { ...label, ...spot }));
    const inside = all.filter(isIn);
    const spot = inside.find(isFree) ?? all.map(held).find(isFree);
    if (spot) taken.push({ ...label, ...spot });
    return spot;
  });
}

/** Right of it, left of it, above and below; then farther off. */
function spotsRound({ x, y, width, height }: Label): readonly Placed[] {
  const [right, left, middle] = [x + GAP, x - GAP - width, x - width / 2];
  const step = height + 2;
  const near = [0, 1, -1, 2, -2, 3, -3].map((row) => y - height / 2 + row * step);
  const far = [4, -4, 5, -5, 6, -6, 7, -7, 8, -8, 9, -9, 10, -10].map((row) => y - height / 2 + row * step);
  const beside = (top: number, more = 0) => [
    { x: right + more, y: top },
    { x: left - more, y: top },
  ];
  return [
    ...near.flatMap((top) => beside(top)),
    ...[2, -2, 3, -3].map((row) => ({ x: middle, y: y - height / 2 + row * step })),
    ...near.flatMap((top) => beside(top, 60)),
    ...far.flatMap((top) => [...beside(top), { x: middle, y: top }, ...beside(top, 90)]),
  ];
}

function covers(a: Label, b: Label): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
