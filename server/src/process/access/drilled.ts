/** Holes in their set-up: the drill, reamer, bore or mill that makes them, and the tap. */
import type { Vec3 } from '../../geometry/types';
import { FACE_PLANE, type Face, type Hole } from '../../model/model';
import type { ThreadMill, Tool } from '../../model/shop-model';
import { formOfTool } from '../../model/tool-kinds';
import type { ToolForm } from '../../model/tool-kinds/kind';
import { boreSize } from '../bore-size';
import { beside, depthBelow, inward } from '../column';
import { isMaker, makersOf, pointBelowMm } from '../cutters';
import { type Bored, bored, endsFlat } from '../drilling';
import { operationsOf } from '../operations';
import { PLAIN_MM } from '../operations/hole-makers';
import { beforeEdges } from '../reach';
import type { Cut } from '../stock/types';
import { tapsOfHole } from '../tapping';
import { threadMillsOf } from '../thread-milling';
import type { Case } from './case';
import { seatTrouble } from './seated';
import { type Task, type Tried, troubleOf, tryTools } from './try-tools';
import type { ToolUse, Verdict } from './verdict';

export function drilled(c: Case, hole: Hole): Verdict {
  const { cut, up, part, shop, asked } = c;
  const none: Verdict = { cut, up, uses: [], asked: asked !== undefined };
  const bores = boresIn(cut, hole, up);
  if (bores.length === 0) return none;
  const spans = bores.map((b) => b.spanMm);
  const makers = inOrder(asked && isMaker(asked) ? [asked] : makersOf(shop, boreSize(hole, part, PLAIN_MM)), c, hole);
  if (makers.length === 0) return none;
  const uses: ToolUse[] = [];
  const made = tryAll(c, bores, spans, makers, { does: doesOf(makers[0]!) });
  const trouble = troubleOf(made, makers, 'drill, reamer or bore of its size', Math.max(...spans));
  if (trouble) return { ...none, ...trouble };
  if (made.use) uses.push({ ...made.use, does: doesOf(made.use.tool) });
  const seat = seatTroubleOf(c, hole, bores);
  if (seat) return { ...none, uses, ...seat };
  const designation = hole.thread?.spec?.designation;
  const taps = tapsOfHole(hole, shop);
  const mills = threadMillsOf(hole, shop);
  if (taps.length + mills.length === 0) return { ...none, uses };
  const deep = spans.map((s) => Math.min(hole.threadDepth?.mm ?? s, s));
  const byTap = tryAll(c, bores, deep, taps, { does: 'tap' });
  const tapped = byTap.use ? byTap : (threadedRound(c, hole, bores, deep, mills) ?? byTap);
  const short = troubleOf(tapped, [...taps, ...mills], `${designation} tap`, Math.max(...deep));
  if (short) return { ...none, uses, ...short };
  return { ...none, uses: tapped.use ? [...uses, tapped.use] : uses };
}

/** Of what is plunged from the hole's own side: not into what was cut into a seat before. */
function seatTroubleOf(c: Case, hole: Hole, bores: readonly Bored[]): ReturnType<typeof seatTrouble> {
  if (c.up !== hole.face) return undefined;
  return seatTrouble(operationsOf(hole, c), hole, (tool, deepMm) =>
    tryAll(
      c,
      bores,
      bores.map(() => deepMm),
      [tool],
      { does: 'drill' },
    ),
  );
}

/** The bores of a hole as they are met before they are cut; the same objects as long as what stands along them is. */
export function boresIn(cut: Cut, hole: Hole, up: Face): readonly Bored[] {
  const { body, voids } = cut.before;
  return cut.removes
    .filter((v) => v.role === 'bore')
    .map((v) => {
      const near = beside(v, { voids }).filter((o) => o.feature !== hole.name && beforeEdges(o));
      return bored(v, hole, up, [up], { body, voids: near });
    });
}

/** The one that its operations name first. */
function inOrder(makers: readonly Tool[], inShop: Case, hole: Hole): readonly Tool[] {
  const planned = operationsOf(hole, inShop).find(
    (o) => o.does !== 'missing' && o.does !== 'spot' && makers.includes(o.tool),
  );
  if (!planned || planned.does === 'missing') return makers;
  return [planned.tool, ...makers.filter((m) => m !== planned.tool)];
}

const DOES: Partial<Record<ToolForm, ToolUse['does']>> = { reamer: 'ream', bore: 'bore', mill: 'mill' };

function doesOf(tool: Tool): ToolUse['does'] {
  return DOES[formOfTool(tool)] ?? 'drill';
}

/** A thread mill stands off the hole's axis all round. Undefined where none is there; else the first that gets there, or why the last does not. */
function threadedRound(
  c: Case,
  hole: Hole,
  bores: readonly Bored[],
  deep: readonly number[],
  mills: readonly ThreadMill[],
): Tried | undefined {
  const majorMm = hole.thread?.spec?.diameterMm ?? hole.diameter.mm;
  let tried: Tried | undefined;
  for (const mill of mills) {
    tried = tryAll(c, bores, deep, [mill], { does: 'tap', offMm: (majorMm - mill.diameterMm) / 2 });
    if (tried.use) return tried;
  }
  return tried;
}

/** Directions in which a tool that goes round is looked at. */
const ROUND = 8;

function standsRound(stand: Vec3, up: Face, offMm: number): readonly Vec3[] {
  if (offMm <= 0) return [stand];
  const [a, b] = FACE_PLANE[up].map((axis) => 'xyz'.indexOf(axis)) as [number, number];
  return Array.from({ length: ROUND }, (_, i) => {
    const at: [number, number, number] = [...stand];
    at[a]! += offMm * Math.cos((2 * Math.PI * i) / ROUND);
    at[b]! += offMm * Math.sin((2 * Math.PI * i) / ROUND);
    return at;
  });
}

/** All the members together: one tool makes them, on their axes or so far off them all round. */
function tryAll(
  c: Case,
  bores: readonly Bored[],
  spans: readonly number[],
  tools: readonly Tool[],
  { does, offMm = 0 }: { readonly does: ToolUse['does']; readonly offMm?: number },
): Tried {
  const { up, obstacles, topMm, shop } = c;
  const tips = bores.map((b, i) => firstMet(b) + spans[i]!);
  const down = inward(up);
  const stands = bores.map((b, i): Vec3 => {
    const by = tips[i]! - depthBelow(c.cut.before, up, b.axis);
    return [b.axis[0] + down[0] * by, b.axis[1] + down[1] * by, b.axis[2] + down[2] * by];
  });
  const task: Task = {
    up,
    get place() {
      return c.place;
    },
    body: c.cut.before.body,
    obstacles,
    topMm,
    tipMm: Math.max(...tips),
    does,
    leastReachMm: Math.max(...spans),
    stands: () => stands.flatMap((s) => standsRound(s, up, offMm)),
    belowMm: (tool) => pointBelowMm(tool, bores.every(endsFlat)),
  };
  return tryTools(tools, task, shop);
}

/** Depth at which the drill first meets material, on its axis or at its rim. */
function firstMet({ core, rim, endMm }: Bored): number {
  return Math.min(...[core, ...rim.map((r) => r.material)].map((stretches) => stretches[0]?.from ?? endMm));
}
