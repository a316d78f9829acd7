/** Names and values a document's author may pick from, each with the reason to pick it. */

import type { SchemaInfo } from '../model/lookup';
import { FACE_PLANE, FACES, OPPOSITE, type Part } from '../model/model';
import type { Shop, Tool, VBlock } from '../model/shop-model';
import { diametersIn } from '../process/workholding/v-block';
import { MATERIALS } from '../tables/materials';
import { formatLength } from '../text/format';
import { descend } from '../text/tree';
import { featureText } from './feature-text';
import { fitSuggestions } from './fit-suggestions';
import { valuesThere } from './included-suggestions';
import { isOfJoint, jointSuggestions } from './joint-suggestions';
import { sizeSuggestions } from './record';
import { clearanceSuggestions, recessSuggestions, threadSuggestions } from './screw-suggestions';
import { setupSuggestions } from './setup-suggestions';
import { CompletionItemKind } from './shapes';
import type { Snapshot } from './snapshot';
import type { Suggestion } from './suggestion';
import type { Typing } from './typing';

const value = (label: string, detail: string): Suggestion => ({ label, detail, kind: CompletionItemKind.Value });
const reference = (label: string, detail: string): Suggestion => ({
  label,
  detail,
  kind: CompletionItemKind.Reference,
});

/** What may be named at a place of the schema, best first. */
export function namesFor(
  snapshot: Snapshot,
  info: SchemaInfo,
  { path, prefix, from }: Pick<Typing, 'path' | 'prefix' | 'from'>,
): Suggestion[] {
  const { part, shop } = worldOf(snapshot);
  const found: Suggestion[] = [];
  const { names } = info;
  if (isOfJoint(names)) return [...jointSuggestions(snapshot, names, path)];
  if (snapshot.kind === 'record') found.push(...sizeSuggestions(snapshot, path, from));
  else found.push(...ofPlace(snapshot, info, { path, prefix }));
  switch (names) {
    case 'feature':
      found.push(...features(part, path));
      break;
    case 'cut':
    case 'zero':
      found.push(...features(part, path), ...faces());
      break;
    case 'datum':
      for (const [letter, datum] of part?.datums ?? [])
        found.push(reference(letter, `datum ${letter}: ${datum.target.name}`));
      break;
    case 'tool':
    case 'vise':
    case 'v-block':
    case 'angle-plate':
    case 'machine':
    case 'drill-press':
    case 'holder':
      found.push(...(shop ? ofShop(names, shop) : []));
      break;
    case 'material':
      found.push(...materials(shop));
      break;
    case 'thread':
      found.push(...threadSuggestions(shop));
      break;
    case 'clearance':
      found.push(...clearanceSuggestions(part?.units ?? 'mm'));
      break;
    case 'cap-screw':
    case 'flat-screw':
      found.push(...recessSuggestions(names === 'cap-screw' ? 'cap' : 'flat', part?.units ?? 'mm'));
      break;
    case 'face':
      if (!info.values) found.push(...faces());
      break;
    // Of these the place itself tells more than a name.
    case 'file':
    case 'parameter':
    case 'rule':
      break;
    default:
      names satisfies undefined;
  }
  return found;
}

/** What the place itself tells of a part. */
function ofPlace(
  snapshot: Snapshot,
  info: SchemaInfo,
  { path, prefix }: Pick<Typing, 'path' | 'prefix'>,
): readonly Suggestion[] {
  const { part, shop } = worldOf(snapshot);
  if (!part) return [];
  return [
    ...valuesThere(snapshot, path),
    ...setupSuggestions(part, shop, path, descend(snapshot.checked.tree.root, path.slice(0, 2))),
    ...(info.unit === 'length' ? [...fitSuggestions(part, path, prefix), ...lengths(part, shop, path)] : []),
  ];
}

/** The part and the shop whose names a document may use. */
function worldOf(snapshot: Snapshot): { readonly part?: Part | undefined; readonly shop?: Shop | undefined } {
  switch (snapshot.kind) {
    case 'part':
      return { part: snapshot.checked.part, shop: snapshot.checked.shop };
    case 'shop':
      return { shop: snapshot.checked.shop };
    case 'record':
      return { part: snapshot.part?.checked.part, shop: snapshot.part?.checked.shop };
    case 'job':
      return {};
    default:
      return snapshot satisfies never;
  }
}

/** What the shop has of a kind, each with what tells it from the others. */
function ofShop(
  kind: 'tool' | 'vise' | 'v-block' | 'angle-plate' | 'machine' | 'drill-press' | 'holder',
  shop: Shop,
): readonly Suggestion[] {
  switch (kind) {
    case 'tool':
      return shop.tools.map((tool) => reference(tool.name, toolText(tool)));
    case 'vise':
      return shop.vises.map((v) => reference(v.name, `jaws ${v.jawWidthMm} wide, opens ${v.opensMm}`));
    case 'v-block':
      return shop.vBlocks.map((v) => reference(v.name, vBlockText(v)));
    case 'angle-plate':
      return shop.anglePlates.map((p) => reference(p.name, `${p.widthMm} wide, ${p.heightMm} high`));
    case 'machine':
      return shop.machines.map((m) => reference(m.name, `travel ${m.travelMm.join(' × ')}, to ${m.rpm[1]} rpm`));
    case 'drill-press':
      return [
        ...shop.drillPresses.map((p) => reference(p.name, `drills to ${p.largestMm} mm`)),
        ...(shop.bench ? [value('bench', 'tapped and reamed by hand, after it was drilled in a set-up')] : []),
      ];
    case 'holder':
      return shop.holders.map((h) => reference(h.name, `${h.diameterMm} mm wide, ${h.lengthMm} mm long`));
    default:
      return kind satisfies never;
  }
}

function vBlockText(v: VBlock): string {
  const [least, most] = diametersIn(v).map((mm) => Number(mm.toFixed(1)));
  return `for round work of ${least} to ${most} mm`;
}

function faces(): Suggestion[] {
  return FACES.map((face) =>
    value(face, `positions on it in ${FACE_PLANE[face].join(' and ')}; opposite ${OPPOSITE[face]}`),
  );
}

function features(part: Part | undefined, path: readonly string[]): Suggestion[] {
  const own = path[0] === 'features' ? path[1] : undefined;
  return (part?.features ?? []).filter((f) => f.name !== own).map((f) => reference(f.name, featureText(f, part!)));
}

/** One line on a tool, in the trade's terms. */
export function toolText(tool: Tool): string {
  const size = tool.kind === 'tap' ? tool.thread : `${Number(tool.diameterMm.toFixed(3))} mm`;
  const reach =
    'reachMm' in tool
      ? `, reach ${tool.reachMm} mm`
      : 'fluteLengthMm' in tool
        ? `, ${tool.fluteLengthMm} mm flutes`
        : '';
  const flutes = 'flutes' in tool ? `, ${tool.flutes} flutes` : '';
  const corner = 'cornerRadiusMm' in tool && tool.cornerRadiusMm > 0 ? `, corner ${tool.cornerRadiusMm} mm` : '';
  return `${tool.kind} ${size}${flutes}${reach}${corner}, ${tool.material}`;
}

function materials(shop: Shop | undefined): Suggestion[] {
  const onRack = new Set(shop?.rack.map((r) => r.material));
  return [...(shop?.materials?.values() ?? []), ...MATERIALS.filter((m) => !shop?.materials?.has(m.name))]
    .sort((a, b) => Number(onRack.has(b.name)) - Number(onRack.has(a.name)))
    .map((m) =>
      value(m.name, `${m.title}, ${m.densityGPerCm3} g/cm³${onRack.has(m.name) ? ', bars in the shop' : ''}`),
    );
}

/** Parameters and body sizes; for corner radii and hole diameters, what the shop's cutters make. */
function lengths(part: Part, shop: Shop | undefined, path: readonly string[]): Suggestion[] {
  const { units } = part;
  const found: Suggestion[] = [];
  const key = path.at(-1);
  if (key === 'corner-radius') {
    for (const tool of shop?.tools ?? []) {
      if (tool.kind !== 'end-mill') continue;
      // 10 % more than the cutter's radius lets it roll through the corner (common practice).
      const radius = Math.ceil(tool.diameterMm * 0.55 * 20) / 20;
      found.push(
        value(
          String(units === 'mm' ? radius : `${radius} mm`),
          `a ${formatLength(tool.diameterMm, units)} cutter rolls through: ${tool.name}, reach ${formatLength(tool.reachMm, units)}`,
        ),
      );
    }
  }
  if (key === 'diameter' && path[0] === 'features') {
    for (const tool of shop?.tools ?? []) {
      if (tool.kind === 'drill' || tool.kind === 'reamer')
        found.push(
          value(
            units === 'mm' ? String(tool.diameterMm) : `${tool.diameterMm} mm`,
            `${tool.kind} in the shop: ${tool.name}`,
          ),
        );
    }
  }
  for (const p of part.parameters.values()) found.push(reference(p.name, `parameter: ${p.text}`));
  for (const [i, axis] of (['x', 'y', 'z'] as const).entries())
    found.push(reference(`body.${axis}`, `${formatLength(part.size[i]!, units)}, the body along ${axis}`));
  return found;
}
