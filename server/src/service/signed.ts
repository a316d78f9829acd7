/** A deviation in mm with its sign: `+0.098`, `−0.015` as `-0.015`, `0`. */
export function signed(mm: number): string {
  return `${mm > 0 ? '+' : ''}${Number(mm.toFixed(4)) + 0}`;
}
