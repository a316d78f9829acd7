/** Tools as bodies of revolution: what the tip, the shank and the holder take up at each height above the tip. */
import type { Shop, Tool } from '../../server/src/model/shop-model';

export interface Body {
  readonly tool: string;
  readonly kind: Tool['kind'];
  /** Largest cutting radius. */
  readonly radius: number;
  /** Radius at a height above the tip, up to `reach`. */
  readonly profile: (height: number) => number;
  /** From here up the profile no longer grows. */
  readonly tipHeight: number;
  /** Above this something stands that must not rub. */
  readonly reach: number;
  readonly shankRadius: number;
  readonly holder?: { readonly radius: number; readonly out: number };
  /** Widest below its neck: enters from the side or through an opening. */
  readonly head?: { readonly height: number; readonly neck: number };
}

const RAD = Math.PI / 180;
/** As far as it can be left standing out where the shop says nothing: three shanks of a mill, two diameters of a drill. Common practice, no source. */
const OUT = { mill: 3, drill: 2 } as const;

export function bodyOf(t: Tool, shop: Shop): Body {
  const r = t.diameterMm / 2;
  const holderOf = (out: number) => {
    const h = shop.holders.find((x) => x.name === t.holder);
    return h ? { holder: { radius: h.diameterMm / 2, out: t.stickoutMm ?? out } } : {};
  };
  const base = { tool: t.name, kind: t.kind, radius: r };
  switch (t.kind) {
    case 'end-mill':
    case 'face-mill': {
      const c = t.cornerRadiusMm;
      const profile = (h: number) => (h < c ? r - c + Math.sqrt(Math.max(0, c * c - (c - h) ** 2)) : r);
      const shank = Math.max(r, t.shankMm / 2);
      return {
        ...base,
        profile,
        tipHeight: c,
        reach: t.reachMm,
        shankRadius: t.kind === 'face-mill' ? r : shank,
        ...holderOf(t.reachMm + OUT.mill * t.shankMm),
      };
    }
    case 'corner-rounder': {
      const c = t.cornerRadiusMm;
      const profile = (h: number) => r - (h < c ? Math.sqrt(Math.max(0, c * c - h * h)) : 0);
      return {
        ...base,
        profile,
        tipHeight: c,
        reach: t.reachMm,
        shankRadius: Math.max(r, t.shankMm / 2),
        ...holderOf(t.reachMm + OUT.mill * t.shankMm),
      };
    }
    case 'engraver': {
      const slope = Math.tan(((t.angleDeg ?? 60) / 2) * RAD);
      const shank = Math.max(r, t.shankMm / 2);
      const profile = (h: number) => Math.min(shank, r + h * slope);
      return {
        ...base,
        radius: shank,
        profile,
        tipHeight: (shank - r) / slope,
        reach: t.reachMm,
        shankRadius: shank,
        ...holderOf(t.reachMm + OUT.mill * t.shankMm),
      };
    }
    case 'chamfer-mill':
    case 'countersink':
    case 'counterbore-cutter': {
      if (t.angleDeg >= 180)
        return {
          ...base,
          profile: () => r,
          tipHeight: 0,
          reach: t.reachMm,
          shankRadius: r,
          ...holderOf(t.reachMm + OUT.drill * 2 * r),
        };
      const slope = Math.tan((t.angleDeg / 2) * RAD);
      const profile = (h: number) => Math.min(r, t.tipMm / 2 + h * slope);
      return {
        ...base,
        profile,
        tipHeight: (r - t.tipMm / 2) / slope,
        reach: t.reachMm,
        shankRadius: r,
        ...holderOf(t.reachMm + OUT.drill * 2 * r),
      };
    }
    case 'drill':
    case 'spot-drill':
    case 'flat-drill': {
      const slope = t.pointDeg < 180 ? Math.tan((t.pointDeg / 2) * RAD) : Number.POSITIVE_INFINITY;
      const profile = (h: number) => Math.min(r, h * slope);
      return {
        ...base,
        profile,
        tipHeight: r / slope,
        // Its point is a part of its flutes' length; what is behind them is no thicker than they are.
        reach: t.fluteLengthMm,
        shankRadius: r,
        ...holderOf(t.fluteLengthMm + OUT.drill * 2 * r),
      };
    }
    case 'reamer':
    case 'boring-head':
    case 'tap':
      return {
        ...base,
        profile: () => r,
        tipHeight: 0,
        reach: t.reachMm,
        shankRadius: r,
        ...holderOf(t.reachMm + (t.kind === 'boring-head' ? 0 : OUT.drill * 2 * r)),
      };
    case 'thread-mill':
      return {
        ...base,
        profile: () => r,
        tipHeight: 0,
        reach: t.reachMm,
        shankRadius: Math.max(r, t.shankMm / 2),
        ...holderOf(t.reachMm + OUT.mill * t.shankMm),
      };
    // Whatever is a head on a neck.
    default: {
      const neck = t.neckMm / 2;
      const lean = t.kind === 'dovetail-cutter' ? 1 / Math.tan((t.angleDeg ?? 60) * RAD) : 0;
      const round = t.kind === 'ball-undercutter';
      const profile = (h: number) =>
        h > t.thicknessMm ? neck : Math.max(neck, round ? Math.sqrt(Math.max(0, r * r - (r - h) ** 2)) : r - h * lean);
      return {
        ...base,
        profile,
        tipHeight: t.thicknessMm,
        reach: t.reachMm,
        shankRadius: 'shankMm' in t && t.shankMm !== undefined ? t.shankMm / 2 : r,
        head: { height: t.thicknessMm, neck },
        ...holderOf(t.reachMm + OUT.drill * 2 * r),
      };
    }
  }
}

/** The same tool made as wide as asked: a boring head set to a bore. */
export function setTo(b: Body, radius: number): Body {
  return { ...b, radius, profile: () => radius, shankRadius: radius };
}
