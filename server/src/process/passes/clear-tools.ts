/**
 * The cutters of a cut as its set-up lets them pass. The quickest is chosen by what is cut; where a jaw, the stop, a clamp or
 * a plate stands in its way, the one that was found to be clear of them takes its place, in times and on paper too.
 */
import { AXIS_INDEX, sharedBox } from '../../geometry/vector';
import { FACE_AXIS, type Feature, type Setup } from '../../model/model';
import type { Shop, Tool } from '../../model/shop-model';
import { verdictOf } from '../access';
import { operationsOf } from '../operations';
import type { Operation } from '../operations/types';
import type { PartInShop } from '../part-in-shop';
import type { Cut, SetupInTime } from '../stock/types';
import { seatingOf } from '../workholding/seating';

/** The operations of a feature in a set-up; a tool that the set-up names is taken as it is. */
export function clearOperations(feature: Feature, cut: Cut, of: SetupInTime, asked: PartInShop): readonly Operation[] {
  const { part, solid, shop } = asked;
  const chosen = operationsOf(feature, { part, solid, shop });
  if (of.setup.tools.some((t) => t.of.name === feature.name) || !mayMeet(cut, of, asked)) return chosen;
  const mills = new Set<Tool>(chosen.flatMap((o) => (o.does === 'rough' || o.does === 'finish' ? [o.tool] : [])));
  const clear = verdictOf(cut, of, { part, solid, shop })?.uses.find((u) => u.does === 'mill')?.tool;
  if (!clear || mills.size === 0) return chosen;
  const passes = (tool: Tool) => tool === clear || isClear(tool, feature, cut, of, asked);
  if ([...mills].every(passes)) return chosen;
  const setups = (part.setups ?? []).map((s) => (s === of.setup ? withTool(s, feature, clear) : s));
  return operationsOf(feature, { part: { ...part, setups }, solid, shop });
}

function isClear(tool: Tool, feature: Feature, cut: Cut, of: SetupInTime, inShop: PartInShop): boolean {
  const verdict = verdictOf(cut, { ...of, setup: withTool(of.setup, feature, tool) }, inShop);
  return verdict === undefined || verdict.uses.length > 0;
}

/** Whether something stands beside the cut, higher than its floor and no farther than the widest holder or cutter reaches. */
function mayMeet(cut: Cut, of: SetupInTime, { part, shop }: PartInShop): boolean {
  const seating = seatingOf(of, part, shop);
  if (!seating) return false;
  const { axis, sign } = FACE_AXIS[seating.up];
  const i = AXIS_INDEX[axis];
  const by = widestMm(shop) / 2;
  return cut.removes.some(({ bounds }) => {
    const floor = sign > 0 ? bounds.min[i] : bounds.max[i];
    return seating.obstacles.some(({ box }) => {
      const top = sign > 0 ? box.max[i] : box.min[i];
      if ((top - floor) * sign <= 0) return false;
      const shared = sharedBox(box, bounds, by);
      return [0, 1, 2].every((k) => k === i || shared.max[k]! > shared.min[k]!);
    });
  });
}

function widestMm({ tools, holders }: Shop): number {
  return Math.max(0, ...holders.map((h) => h.diameterMm), ...tools.map((t) => ('diameterMm' in t ? t.diameterMm : 0)));
}

function withTool(setup: Setup, { name, nameSpan: span }: Feature, tool: Tool): Setup {
  return { ...setup, tools: [...setup.tools, { of: { name, span }, tool: { name: tool.name, span } }] };
}
