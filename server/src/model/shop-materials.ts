/** Materials of a shop's own: what it says of them, and for the rest what they are like. */
import { cuttingOf, kienzleOf } from '../tables/cutting';
import { findMaterial, type Material, nearestMaterial } from '../tables/materials';
import { at, type MapEntry, type MapNode, type Span, scalarAt } from '../text/tree';
import { isSound } from './header';
import { quote, replace } from './resolve/problem';
import { ownMaterial } from './schema/own-material';
import type { Fields } from './shop-fields';

/** Undefined where it could not be understood, which is told. */
export function readMaterial(fields: Fields, { key, value }: MapEntry): Material | undefined {
  const name = String(key.value);
  if (value?.type !== 'map') {
    fields.problem(
      'form/schema',
      `${quote(name)} has no entries. Write them like \`{ like: aluminium-6061-t6, density: 2.72 }\`.`,
      key.span,
    );
    return undefined;
  }
  if (!isSound(fields, ownMaterial, value, `Material ${quote(name)}`, key.span)) return undefined;
  const like = likeOf(fields, value);
  if (!like) return undefined;
  const said = (field: string, least: number) => fields.number(value, field, least);
  const caution = scalarAt(value, 'caution')?.source;
  const source = scalarAt(value, 'source')?.source;
  const young = said('stiffness', 0.001);
  const [yieldMPa, ultimateMPa] = [said('yield', 0.001), said('strength', 0.001)];
  const strengths = { ...(yieldMPa !== undefined && { yieldMPa }), ...(ultimateMPa !== undefined && { ultimateMPa }) };
  const own: Material = {
    ...like,
    name,
    title: scalarAt(value, 'title')?.source ?? name,
    densityGPerCm3: said('density', 0.001) ?? like.densityGPerCm3,
    ...(young !== undefined && { youngMPa: young * 1000 }),
    ...strengths,
    aliases: [],
    ...(caution !== undefined && { caution: { text: caution, source: 'the shop file' } }),
    source: `the shop file${source ? `: ${source}` : ''}; the rest as ${like.name}: ${like.source}`,
  };
  return { ...own, cut: cutOf(fields, value, own, like) };
}

function likeOf(fields: Fields, map: MapNode): Material | undefined {
  const node = scalarAt(map, 'like');
  if (!node) return undefined;
  const found = findMaterial(node.source);
  if (found) return found;
  const near = nearestMaterial(node.source)?.name;
  const rest = near ? ` Did you mean \`${near}\`?` : '';
  fields.problem(
    'stock/unknown-material',
    `There is no material ${quote(node.source)} in the tables.${rest}`,
    node.span,
    {
      ...(near && { fixes: [replace(node.span, near)] }),
    },
  );
  return undefined;
}

/** Its law and its row; strength over the tables' bound makes it strong steel, as of any. */
function cutOf(fields: Fields, map: MapNode, own: Material, like: Material): NonNullable<Material['cut']> {
  const as = { ...like, ...(own.ultimateMPa !== undefined && { ultimateMPa: own.ultimateMPa }) };
  const [law, row] = [kienzleOf(like), cuttingOf(as)];
  const [kc11, mc] = [fields.number(map, 'kc1.1', 1), fields.number(map, 'mc', 0)];
  const [hss, carbide] = [speedIn(fields, map, 'speed-hss'), speedIn(fields, map, 'speed-carbide')];
  return {
    law:
      kc11 === undefined && mc === undefined
        ? law
        : { material: own.name, kc11: kc11 ?? law.kc11, mc: mc ?? law.mc, source: 'the shop file' },
    row:
      hss || carbide
        ? {
            ...row,
            speed: { ...row.speed, ...(hss && { hss }), ...(carbide && { carbide }) },
            source: `speeds: the shop file; the rest: ${row.source}`,
          }
        : row,
  };
}

/** A slow speed and a fast one, m/min. */
function speedIn(fields: Fields, map: MapNode, key: string): readonly [number, number] | undefined {
  const node = at(map, key);
  if (node?.type !== 'list') return undefined;
  const wrong = (message: string, span: Span = node.span): undefined =>
    fields.problem('form/schema', `\`${key}\` ${message}`, span) as undefined;
  const speeds = node.items.map((item) => (item.type === 'scalar' ? fields.numberOf(item, key, 0.1) : undefined));
  const [low, high = low] = speeds;
  if (low === undefined || high === undefined || speeds.length > 2)
    return wrong('takes a slow speed and a fast one in m/min: `[150, 300]`.');
  return low > high ? wrong(`has its slow speed first: \`[${high}, ${low}]\`.`) : [low, high];
}
