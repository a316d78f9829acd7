/** What a hole's seats are plunged with, and its spot: a short tool, whose holder meets a wall before the drill's does. */
import type { Hole } from '../../model/model';
import type { Tool } from '../../model/shop-model';
import type { Operation } from '../operations';
import { type Tried, troubleOf } from './try-tools';
import type { Verdict } from './verdict';

/** A tool that goes straight down on the hole's axis, and how deep its tip goes from where the bore begins. */
interface Plunge {
  readonly tool: Tool;
  readonly deepMm: number;
  readonly what: string;
  /** The hole comes without it. */
  readonly spared: boolean;
}

const NAMES = { spot: 'spot drill', counterbore: 'counterbore cutter', countersink: 'countersink' } as const;

function plungesOf(operations: readonly Operation[], { countersink, diameter }: Hole): readonly Plunge[] {
  return operations.flatMap((o): readonly Plunge[] => {
    if (o.does !== 'spot' && o.does !== 'counterbore' && o.does !== 'countersink') return [];
    const { tool, does } = o;
    // The bore begins at the floor of its seat: a tip narrower than it goes past that.
    const pastMm =
      does === 'countersink' && countersink && 'tipMm' in tool
        ? Math.max(0, (diameter.mm - tool.tipMm) / 2 / Math.tan((countersink.angle.deg * Math.PI) / 360))
        : 0;
    return [{ tool, deepMm: does === 'spot' ? o.depthMm : pastMm, what: NAMES[does], spared: does === 'spot' }];
  });
}

type Trouble = Partial<Pick<Verdict, 'short' | 'holder' | 'fixture'>>;

/** The first that is kept from its cut, and by what; of a spot only its holder, for a drill starts without one. */
export function seatTrouble(
  operations: readonly Operation[],
  hole: Hole,
  tried: (tool: Tool, deepMm: number) => Tried,
): Trouble | undefined {
  for (const { tool, deepMm, what, spared } of plungesOf(operations, hole)) {
    const trouble = troubleOf(tried(tool, deepMm), [tool], what, deepMm);
    if (!trouble) continue;
    if (!spared) return trouble;
    if (trouble.holder) return { holder: { ...trouble.holder, spared: true } };
  }
  return undefined;
}
