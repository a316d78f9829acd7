/** How the numbers of a cut come about: each formula with this cut's own values in it, and where it is from. */

import type { Machine } from '../model/shop-model';
import { TIMES_SOURCE } from '../model/shop-times';
import { hasShank } from '../model/tool-kinds';
import type { MillingConditions } from '../process/cutting/conditions';
import { shankForceN, slipsAtN } from '../process/cutting/grip';
import { handTapMinutes } from '../process/cutting/hands';
import { rampDegOf } from '../process/cutting/time';
import type { Priced } from '../process/operations/priced';
import type { Tapping } from '../process/operations/types';
import { overlap } from '../process/operations/widths';
import { turnsOf } from '../process/thread-milling';
import { coolingOf, cuttingOf, holeRowOf, kienzleOf } from '../tables/cutting';
import {
  AXIAL_SHARE,
  COLLET_SLIP,
  CUTTER_YOUNG,
  ENTRY,
  FLUTE_CORE,
  type KienzleRow,
  RADIAL_SHARE,
  WORN_EDGE,
} from '../tables/cutting.data';
import type { Material } from '../tables/materials';
import { FORM_TAP_TORQUE, PLUNGES, TAP_FORCE } from '../tables/plunging.data';

interface Formula {
  readonly what: string;
  readonly how: string;
  readonly source: string;
}

/** Of one cut; the time last. Empty where nothing on hand does it. */
export function formulaeOf(priced: Priced, material: Material, machine: Machine): readonly Formula[] {
  const { operation: o, conditions: c } = priced;
  if (o.does === 'missing') return [];
  if (!c) return o.does === 'tap' ? [tapTorque(priced, material), handTap(o, machine)] : [];
  const cooling = coolingOf(material, machine.coolant);
  const d = 'diameterMm' in o ? o.diameterMm : o.tool.diameterMm;
  const speed: Formula = {
    what: 'speed',
    how: `n = 1000 v / (π D) = 1000 · ${n((c.wantedRpm * Math.PI * d) / 1000)} / (π · ${n(d)}) = ${Math.round(c.wantedRpm)} rpm; v is ${Math.round(100 * cooling.speedShare)} % up its range of ${c.speedRange.map((v) => n(v)).join(' to ')} m/min (ISO 513 group ${cuttingOf(material).group ?? 'none'}, ${o.tool.material}, ${machine.coolant === 'none' ? 'no coolant' : machine.coolant})`,
    source: `${c.source}; coolant: ${cooling.source}`,
  };
  return [speed, ...(priced.milling ? milled(priced, material) : plunged(priced, material)), timeOf(priced)];
}

function milled({ operation: o, milling: m }: Priced, material: Material): readonly Formula[] {
  if (!m || o.does === 'missing') return [];
  const law = kienzleOf(material);
  const teeth = m.feedMmPerMin / (m.feedPerToothMm * m.rpm);
  const young = o.tool.material === 'carbide' ? CUTTER_YOUNG.carbide : CUTTER_YOUNG.hss;
  return [
    {
      what: 'feed',
      how: `vf = fz · z · n = ${n(m.feedPerToothMm)} · ${n(teeth)} · ${Math.round(m.rpm)} = ${Math.round(m.feedMmPerMin)} mm/min; ${m.ownFeed ? `fz at most ${n(m.chipRangeMm[1])} mm a tooth` : `fz from ${m.chipRangeMm.map((x) => n(x)).join(' to ')} mm a tooth, more where a narrow cut thins the chip`}`,
      source: m.ownFeed ? `shop: \`feed-per-tooth\` of ${o.tool.name}` : m.source,
    },
    {
      what: 'force',
      how: forceOf(m, law, o.tool),
      source: `${law.material}: ${law.source}; inward: ${RADIAL_SHARE.source}; along the axis: ${AXIAL_SHARE.source}; worn edge: ${WORN_EDGE.source}`,
    },
    {
      what: 'bending',
      how: `Σ F (b³ − a³) / (3 E I) over flutes (a core of ${FLUTE_CORE.share} D), neck, shank${o.holder ? ' and holder' : ''}, ${n(m.stickoutMm)} mm out, E ${young.mPa / 1000} GPa: ${n(m.deflectionMm)} mm`,
      source: `beam theory; core: ${FLUTE_CORE.source}; ${young.source}`,
    },
    ...kept(o, m),
  ];
}

/** What turns and draws the shank in its holder, against the friction that keeps it. */
function kept(o: Exclude<Priced['operation'], { does: 'missing' }>, { load }: MillingConditions): readonly Formula[] {
  const { tool } = o;
  if (!hasShank(tool)) return [];
  const bears = slipsAtN(tool, o.holder);
  if (!Number.isFinite(bears)) return [];
  const { diameterMm: d, shankMm: shank } = tool;
  return [
    {
      what: 'holder',
      how: `√((Ft · D / d)² + Fa²) = √((${Math.round(load.tangentialN)} · ${n(d)} / ${n(shank)})² + ${Math.round(load.axialN)}²) = ${Math.round(shankForceN(load, tool))} N on the shank; it slips at ${Math.round(bears)} N`,
      source: o.holder?.slipsAtN === undefined ? COLLET_SLIP.source : '`slips-at` of its holder',
    },
  ];
}

/** Each number can be worked out again from those beside it. */
function forceOf(m: MillingConditions, law: KienzleRow, tool: object): string {
  const { load } = m;
  const worn = WORN_EDGE.factor;
  const kc = (h: number) =>
    `${law.kc11} · ${n(h)}^-${law.mc} · ${worn} = ${Math.round(worn * law.kc11 * h ** -law.mc)}`;
  const [low, high] = 'helixDeg' in tool ? (tool.helixDeg as readonly [number, number]) : [0, 0];
  const helix = high > low ? `a helix of ${low} to ${high}°, the least favourable` : `a helix of ${low}°`;
  return `at most ${n(load.edgeMm)} mm of edge cut at once, ${n(load.edgeChipMm)} mm thick (${helix}): kc · h · b = ${kc(load.edgeChipMm)} N/mm² · ${n(load.edgeChipMm)} · ${n(load.edgeMm)} = ${Math.round(load.tangentialN)} N around (Kienzle, ${worn} for a worn edge); with ${RADIAL_SHARE.share} of it inward ${Math.round(load.resultantN)} N across; ${Math.round(load.axialN)} N along the axis (${AXIAL_SHARE.share} of it by the tangent of the helix). P = kc · ae · ap · vf at the mean chip of ${n(load.meanChipMm)} mm, kc ${kc(load.meanChipMm)} N/mm²: ${Math.round(load.powerW)} W`;
}

function plunged(priced: Priced, material: Material): readonly Formula[] {
  const { operation: o, conditions: c, torqueNm, powerW } = priced;
  if (!c || o.does === 'missing') return [];
  if (o.does === 'tap') {
    const how = `the pitch a turn: ${n(o.pitchMm)} · ${Math.round(c.rpm)} = ${Math.round(c.feedMmPerMin)} mm/min`;
    return [{ what: 'feed', how, source: c.source }, tapTorque(priced, material)];
  }
  const law = kienzleOf(material);
  const turn = c.feedMmPerMin / c.rpm;
  const feed: Formula = {
    what: 'feed',
    how: `vf = f · n = ${n(turn)} · ${Math.round(c.rpm)} = ${Math.round(c.feedMmPerMin)} mm/min`,
    source: o.does in PLUNGES ? PLUNGES[o.does as keyof typeof PLUNGES].source : c.source,
  };
  if (torqueNm === undefined) return [feed];
  const torque =
    o.does === 'bore'
      ? 'M = kc · a · f · D / 2, as in turning'
      : 'M = kc · f · D² / 8, each lip with half of the feed; down: half of what the lips take and half as much again for the chisel edge (from memory)';
  const helix = cuttingOf(material).helix;
  const drill =
    o.does === 'drill' ? `; a drill of type ${helix.type}, helix ${helix.deg.join(' to ')}°, suits (DIN 1414)` : '';
  return [
    feed,
    {
      what: 'torque',
      how: `${torque}; kc = ${law.kc11} · h^-${law.mc} (Kienzle): ${Number(torqueNm.toPrecision(2))} N·m, ${Math.round(powerW ?? 0)} W${drill}`,
      source: `${law.material}: ${law.source}`,
    },
  ];
}

function tapTorque(
  { operation: o, torqueNm = 0 }: Pick<Priced, 'operation' | 'torqueNm'>,
  material: Material,
): Formula {
  const { kc, source } = TAP_FORCE[holeRowOf(material)];
  const [d, p] = o.does === 'tap' ? [o.tool.diameterMm, o.pitchMm] : [0, 0];
  const forms = o.does === 'tap' && o.tool.forming === true;
  const harder = forms ? ` · ${FORM_TAP_TORQUE.factor} (it forms)` : '';
  const how = `M = kc · P² · D / 8000${harder} = ${kc} · ${n(p)}² · ${n(d)} / 8000${harder} = ${Number(torqueNm.toPrecision(2))} N·m`;
  return { what: 'torque', how, source: forms ? `${source}; ${FORM_TAP_TORQUE.source}` : source };
}

function handTap(o: Tapping, machine: Machine): Formula {
  const turns = o.depthMm / o.pitchMm;
  const [low, high] = handTapMinutes(machine, o.depthMm, o.pitchMm);
  const how = `each hole: put in and started square, then ${n(turns)} turns with a quarter back: ${n(low)} to ${n(high)} min`;
  return { what: 'time', how, source: machine.hands ? 'times of the shop' : TIMES_SOURCE };
}

function timeOf({ operation: o, milling: m }: Priced): Formula {
  const source = `textbook formulae of way over feed; shares for lifts and caution: common practice, no source; going in: ${ENTRY.source}`;
  const of = (how: string): Formula => ({ what: 'time', how, source });
  if ((o.does === 'rough' || o.does === 'rest') && m)
    return of(
      `${Math.round(o.volumeMm3)} mm³ / (ae · ap · vf = ${Math.round(m.load.removalMm3PerMin)} mm³/min)${unevenly(o, m)}${comesIn(o)}; at most a third more for lifts, and a cautious hand`,
    );
  if (o.does === 'finish') return of(`${n(o.wayMm)} mm of wall a pass, with its approach √(ae (D − ae)), over vf`);
  if ('wayMm' in o) return of(`${n(o.wayMm)} mm of edge over vf, a pass or as many as the cutter bears`);
  if (o.does === 'face')
    return of(
      `${n(o.lengthMm)} × ${n(o.widthMm)} mm in passes of ${m ? n(m.aeMm) : '0.7 D'} mm, with (D − √(D² − ae²)) / 2 at each end, over vf`,
    );
  if (o.does === 'bore')
    return of(
      `${PLUNGES.bore.cuts} cuts of ${n(o.depthMm)} mm over vf, each measured and the head set before the next (\`bore-cut\` of the shop’s \`times\`)`,
    );
  if (o.does === 'thread')
    return of(
      `${n(turnsOf(o.tool, o.pitchMm, o.depthMm))} turns of π · ${n(o.majorMm)} mm along the wall${m ? ` at ${Math.round(m.feedMmPerMin)} mm/min` : ''}; the spindle’s axis goes (1 − ${n(o.tool.diameterMm)} / ${n(o.majorMm)}) as fast`,
    );
  if (o.does === 'tap') return of(`twice ${n(o.depthMm)} mm over the feed: in and out`);
  return of(
    `${'depthMm' in o ? n(o.depthMm) : ''} mm and the point 0.5 D / tan(point / 2) over vf, with every peck’s way up and down`,
  );
}

function comesIn({ enters, does, tool }: Extract<Priced['operation'], { volumeMm3: number }>): string {
  if (enters === 'drilled') return '';
  if (enters === 'plunge') return `, and straight down at ${ENTRY.plungeFeed} vf`;
  if (enters) return `, and down a slope of ${n(rampDegOf(tool))}°${overRamp(tool)} at ${ENTRY.rampFeed} vf`;
  return does === 'rest' ? '' : ', and each stroke’s approach √(ae (D − ae)) over vf';
}

/** What a maker lets it do is no reason to do it: said, where it is not used. */
function overRamp({ rampDeg = 0 }: { readonly rampDeg?: number }): string {
  return rampDeg > ENTRY.rampDeg ? ` (of the ${n(rampDeg)}° by its maker)` : '';
}

/** Where the last of the passes side by side finds less than the others. */
function unevenly({ wideMm }: { readonly wideMm: number }, { aeMm }: MillingConditions): string {
  const times = overlap(wideMm, aeMm);
  if (times < 1.005) return '';
  return ` · ${n(times)}: ${Math.round((times * wideMm) / aeMm)} passes side by side over ${n(wideMm)} mm, the last only as wide as what is left`;
}

function n(value: number): string {
  return String(Number(value.toPrecision(3)));
}
