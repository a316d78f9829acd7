/** The text of the shop that comes with Scribeline, as a `*.shop.yaml` document. Run `tsx server/generate/builtin-shop.ts` after a change. */
export const BUILTIN_SHOP_TEXT = `# The shop that comes with Scribeline: a small knee mill with a control and an everyday set of tools, as a school or club workshop has
# them. Made up, with sizes as the standards have them. Copy it into a NAME.shop.yaml of your own and correct it.
shop: everyday workshop
units: mm

machines:
  knee-mill:
    travel: { x: 400, y: 220, z: 380 }
    spindle: { rpm: [150, 5000], power: 1.1 kW, torque: 14 N·m }
    feed: 3000 mm/min
    coolant: flood
    control: program
    tapping: hand
    backlash: 0
    locates: { edge-finder: 0.02, probe: 0.01, tool-edge: 0.08, indicator: 0.01, stop: 0.02 }
    daylight: 450
    table-load: 120 kg
    tool-change: 90 s

vises:
  mill-vise-100: { jaw: { width: 100, height: 32 }, bed: 65, opens: 110, force: 15 kN, face: smooth }
  toolmakers-vise-70: { jaw: { width: 70, height: 32 }, bed: 45.5, opens: 80, force: 8 kN, face: smooth }

v-blocks:
  v-block-45: { width: 32, height: 35, length: 45, count: 2 }

angle-plates:
  angle-plate-100: { width: 100, height: 100, thickness: 12 }

parallels: [6, 10, 14, 18, 22, 26, 30]

holders:
  er11-slim: { diameter: 16, length: 60 }
  er20-short: { diameter: 34, length: 50 }
  er32: { diameter: 50, length: 60 }
  drill-chuck: { diameter: 50, length: 90 }
  shell-arbor: { diameter: 40, length: 45 }
  boring-body: { diameter: 54, length: 80 }

tools:
  # Square end mills, then the same with long reach (the neck is relieved behind short flutes, or the flutes are long).
  em-2: { kind: end-mill, diameter: 2, flutes: 3, flute-length: 7, reach: 8, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 24 }
  em-3: { kind: end-mill, diameter: 3, flutes: 3, flute-length: 8, reach: 12, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 26 }
  em-4: { kind: end-mill, diameter: 4, flutes: 3, flute-length: 11, reach: 14, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 26 }
  em-5: { kind: end-mill, diameter: 5, flutes: 3, flute-length: 13, reach: 16, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 26 }
  em-6: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 16, reach: 20, shank: 6, corner-radius: 0, material: carbide, holder: er20-short, stickout: 26 }
  em-8: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 19, reach: 25, shank: 8, corner-radius: 0, material: carbide, holder: er20-short, stickout: 32 }
  em-10: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10, corner-radius: 0, material: carbide, holder: er20-short, stickout: 38 }
  em-12: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 26, reach: 36, shank: 12, corner-radius: 0, material: carbide, holder: er20-short, stickout: 44 }
  em-16: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 32, reach: 42, shank: 16, corner-radius: 0, material: carbide, holder: er32, stickout: 52 }
  em-20: { kind: end-mill, diameter: 20, flutes: 3, flute-length: 38, reach: 50, shank: 20, corner-radius: 0, material: carbide, holder: er32, stickout: 60 }
  em-2-long: { kind: end-mill, diameter: 2, flutes: 2, flute-length: 4, reach: 12, shank: 6, corner-radius: 0, material: carbide, holder: er11-slim, stickout: 28 }
  em-3-long: { kind: end-mill, diameter: 3, flutes: 2, flute-length: 6, reach: 20, shank: 6, corner-radius: 0, material: carbide, holder: er11-slim, stickout: 32 }
  em-4-long: { kind: end-mill, diameter: 4, flutes: 2, flute-length: 8, reach: 25, shank: 6, corner-radius: 0, material: carbide, holder: er11-slim, stickout: 36 }
  em-5-long: { kind: end-mill, diameter: 5, flutes: 2, flute-length: 10, reach: 30, shank: 6, corner-radius: 0, material: carbide, holder: er11-slim, stickout: 40 }
  em-6-long: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 24, reach: 36, shank: 6, corner-radius: 0, material: carbide, holder: er11-slim, stickout: 42 }
  em-8-long: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 38, reach: 45, shank: 8, corner-radius: 0, material: carbide, holder: er20-short, stickout: 50 }
  em-10-long: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 45, reach: 60, shank: 10, corner-radius: 0, material: carbide, holder: er20-short, stickout: 66 }
  em-12-long: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 53, reach: 72, shank: 12, corner-radius: 0, material: carbide, holder: er20-short, stickout: 78 }
  em-16-long: { kind: end-mill, diameter: 16, flutes: 3, flute-length: 63, reach: 85, shank: 16, corner-radius: 0, material: carbide, holder: er32, stickout: 92 }
  # Bull-nose and ball.
  bn-6-r0.5: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 13, reach: 20, shank: 6, corner-radius: 0.5, material: carbide, holder: er20-short, stickout: 26 }
  bn-6-r1: { kind: end-mill, diameter: 6, flutes: 3, flute-length: 13, reach: 20, shank: 6, corner-radius: 1, material: carbide, holder: er20-short, stickout: 26 }
  bn-8-r1: { kind: end-mill, diameter: 8, flutes: 3, flute-length: 19, reach: 25, shank: 8, corner-radius: 1, material: carbide, holder: er20-short, stickout: 32 }
  bn-10-r1: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10, corner-radius: 1, material: carbide, holder: er20-short, stickout: 38 }
  bn-10-r2: { kind: end-mill, diameter: 10, flutes: 3, flute-length: 22, reach: 30, shank: 10, corner-radius: 2, material: carbide, holder: er20-short, stickout: 38 }
  bn-12-r3: { kind: end-mill, diameter: 12, flutes: 3, flute-length: 26, reach: 36, shank: 12, corner-radius: 3, material: carbide, holder: er20-short, stickout: 44 }
  ball-3: { kind: end-mill, diameter: 3, flutes: 2, flute-length: 6, reach: 12, shank: 6, corner-radius: 1.5, material: carbide, holder: er20-short, stickout: 26 }
  ball-4: { kind: end-mill, diameter: 4, flutes: 2, flute-length: 8, reach: 16, shank: 6, corner-radius: 2, material: carbide, holder: er20-short, stickout: 28 }
  ball-6: { kind: end-mill, diameter: 6, flutes: 2, flute-length: 12, reach: 24, shank: 6, corner-radius: 3, material: carbide, holder: er20-short, stickout: 32 }
  ball-8: { kind: end-mill, diameter: 8, flutes: 2, flute-length: 16, reach: 30, shank: 8, corner-radius: 4, material: carbide, holder: er20-short, stickout: 38 }
  ball-10: { kind: end-mill, diameter: 10, flutes: 2, flute-length: 20, reach: 35, shank: 10, corner-radius: 5, material: carbide, holder: er20-short, stickout: 42 }
  # Faces and edges.
  fm-50: { kind: face-mill, diameter: 50, flutes: 4, flute-length: 6, reach: 40, shank: 22, corner-radius: 0.8, material: carbide, holder: shell-arbor }
  cm-6: { kind: chamfer-mill, diameter: 6, angle: 90, tip: 0.5, reach: 18, material: carbide, holder: er20-short }
  cm-12: { kind: chamfer-mill, diameter: 12, angle: 90, tip: 1, reach: 28, material: carbide, holder: er20-short }
  cr-0.5: { kind: corner-rounder, diameter: 6, corner-radius: 0.5, flutes: 4, reach: 4, shank: 6, material: carbide, holder: er20-short }
  cr-1: { kind: corner-rounder, diameter: 6, corner-radius: 1, flutes: 4, reach: 4, shank: 6, material: carbide, holder: er20-short }
  cr-2: { kind: corner-rounder, diameter: 8, corner-radius: 2, flutes: 4, reach: 6, shank: 8, material: carbide, holder: er20-short }
  cr-3: { kind: corner-rounder, diameter: 12, corner-radius: 3, flutes: 4, reach: 9, shank: 12, material: carbide, holder: er20-short }
  eng-0.3: { kind: engraver, diameter: 0.3, angle: 60, flutes: 1, flute-length: 3, reach: 3, shank: 6, material: carbide, holder: er20-short }
  # Drills, DIN 338: the half-millimetre box, tap drills, clearance holes (ISO 273), and a little under each reamer.
  dr-1: { kind: drill, diameter: 1, flute-length: 12, point: 118, material: hss, holder: drill-chuck }
  dr-1.25: { kind: drill, diameter: 1.25, flute-length: 16, point: 118, material: hss, holder: drill-chuck }
  dr-1.5: { kind: drill, diameter: 1.5, flute-length: 18, point: 118, material: hss, holder: drill-chuck }
  dr-1.6: { kind: drill, diameter: 1.6, flute-length: 20, point: 118, material: hss, holder: drill-chuck }
  dr-1.75: { kind: drill, diameter: 1.75, flute-length: 22, point: 118, material: hss, holder: drill-chuck }
  dr-2: { kind: drill, diameter: 2, flute-length: 24, point: 118, material: hss, holder: drill-chuck }
  dr-2.05: { kind: drill, diameter: 2.05, flute-length: 24, point: 118, material: hss, holder: drill-chuck }
  dr-2.2: { kind: drill, diameter: 2.2, flute-length: 27, point: 118, material: hss, holder: drill-chuck }
  dr-2.4: { kind: drill, diameter: 2.4, flute-length: 30, point: 118, material: hss, holder: drill-chuck }
  dr-2.5: { kind: drill, diameter: 2.5, flute-length: 30, point: 118, material: hss, holder: drill-chuck }
  dr-2.7: { kind: drill, diameter: 2.7, flute-length: 33, point: 118, material: hss, holder: drill-chuck }
  dr-2.9: { kind: drill, diameter: 2.9, flute-length: 33, point: 118, material: hss, holder: drill-chuck }
  dr-3: { kind: drill, diameter: 3, flute-length: 33, point: 118, material: hss, holder: drill-chuck }
  dr-3.2: { kind: drill, diameter: 3.2, flute-length: 36, point: 118, material: hss, holder: drill-chuck }
  dr-3.3: { kind: drill, diameter: 3.3, flute-length: 36, point: 118, material: hss, holder: drill-chuck }
  dr-3.4: { kind: drill, diameter: 3.4, flute-length: 39, point: 118, material: hss, holder: drill-chuck }
  dr-3.5: { kind: drill, diameter: 3.5, flute-length: 39, point: 118, material: hss, holder: drill-chuck }
  dr-3.7: { kind: drill, diameter: 3.7, flute-length: 39, point: 118, material: hss, holder: drill-chuck }
  dr-3.8: { kind: drill, diameter: 3.8, flute-length: 43, point: 118, material: hss, holder: drill-chuck }
  dr-4: { kind: drill, diameter: 4, flute-length: 43, point: 118, material: hss, holder: drill-chuck }
  dr-4.2: { kind: drill, diameter: 4.2, flute-length: 43, point: 118, material: hss, holder: drill-chuck }
  dr-4.3: { kind: drill, diameter: 4.3, flute-length: 47, point: 118, material: hss, holder: drill-chuck }
  dr-4.5: { kind: drill, diameter: 4.5, flute-length: 47, point: 118, material: hss, holder: drill-chuck }
  dr-4.8: { kind: drill, diameter: 4.8, flute-length: 52, point: 118, material: hss, holder: drill-chuck }
  dr-5: { kind: drill, diameter: 5, flute-length: 52, point: 118, material: hss, holder: drill-chuck }
  dr-5.3: { kind: drill, diameter: 5.3, flute-length: 52, point: 118, material: hss, holder: drill-chuck }
  dr-5.5: { kind: drill, diameter: 5.5, flute-length: 57, point: 118, material: hss, holder: drill-chuck }
  dr-5.8: { kind: drill, diameter: 5.8, flute-length: 57, point: 118, material: hss, holder: drill-chuck }
  dr-6: { kind: drill, diameter: 6, flute-length: 57, point: 118, material: hss, holder: drill-chuck }
  dr-6.4: { kind: drill, diameter: 6.4, flute-length: 63, point: 118, material: hss, holder: drill-chuck }
  dr-6.5: { kind: drill, diameter: 6.5, flute-length: 63, point: 118, material: hss, holder: drill-chuck }
  dr-6.6: { kind: drill, diameter: 6.6, flute-length: 63, point: 118, material: hss, holder: drill-chuck }
  dr-6.8: { kind: drill, diameter: 6.8, flute-length: 69, point: 118, material: hss, holder: drill-chuck }
  dr-7: { kind: drill, diameter: 7, flute-length: 69, point: 118, material: hss, holder: drill-chuck }
  dr-7.5: { kind: drill, diameter: 7.5, flute-length: 69, point: 118, material: hss, holder: drill-chuck }
  dr-7.8: { kind: drill, diameter: 7.8, flute-length: 75, point: 118, material: hss, holder: drill-chuck }
  dr-8: { kind: drill, diameter: 8, flute-length: 75, point: 118, material: hss, holder: drill-chuck }
  dr-8.4: { kind: drill, diameter: 8.4, flute-length: 75, point: 118, material: hss, holder: drill-chuck }
  dr-8.5: { kind: drill, diameter: 8.5, flute-length: 75, point: 118, material: hss, holder: drill-chuck }
  dr-8.75: { kind: drill, diameter: 8.75, flute-length: 81, point: 118, material: hss, holder: drill-chuck }
  dr-9: { kind: drill, diameter: 9, flute-length: 81, point: 118, material: hss, holder: drill-chuck }
  dr-9.5: { kind: drill, diameter: 9.5, flute-length: 81, point: 118, material: hss, holder: drill-chuck }
  dr-9.8: { kind: drill, diameter: 9.8, flute-length: 87, point: 118, material: hss, holder: drill-chuck }
  dr-10: { kind: drill, diameter: 10, flute-length: 87, point: 118, material: hss, holder: drill-chuck }
  dr-10.2: { kind: drill, diameter: 10.2, flute-length: 87, point: 118, material: hss, holder: drill-chuck }
  dr-10.5: { kind: drill, diameter: 10.5, flute-length: 87, point: 118, material: hss, holder: drill-chuck }
  dr-10.75: { kind: drill, diameter: 10.75, flute-length: 94, point: 118, material: hss, holder: drill-chuck }
  dr-11: { kind: drill, diameter: 11, flute-length: 94, point: 118, material: hss, holder: drill-chuck }
  dr-11.5: { kind: drill, diameter: 11.5, flute-length: 94, point: 118, material: hss, holder: drill-chuck }
  dr-11.8: { kind: drill, diameter: 11.8, flute-length: 94, point: 118, material: hss, holder: drill-chuck }
  dr-12: { kind: drill, diameter: 12, flute-length: 101, point: 118, material: hss, holder: drill-chuck }
  dr-12.5: { kind: drill, diameter: 12.5, flute-length: 101, point: 118, material: hss, holder: drill-chuck }
  dr-13: { kind: drill, diameter: 13, flute-length: 101, point: 118, material: hss, holder: drill-chuck }
  dr-13.5: { kind: drill, diameter: 13.5, flute-length: 108, point: 118, material: hss, holder: drill-chuck }
  sd-6: { kind: spot-drill, diameter: 6, flute-length: 16, point: 90, material: hss, holder: er20-short }
  sd-10: { kind: spot-drill, diameter: 10, flute-length: 25, point: 90, material: hss, holder: er20-short }
  # Bores.
  rm-3: { kind: reamer, diameter: 3, fit: H7, reach: 30, material: hss, holder: drill-chuck }
  rm-4: { kind: reamer, diameter: 4, fit: H7, reach: 38, material: hss, holder: drill-chuck }
  rm-5: { kind: reamer, diameter: 5, fit: H7, reach: 45, material: hss, holder: drill-chuck }
  rm-6: { kind: reamer, diameter: 6, fit: H7, reach: 50, material: hss, holder: drill-chuck }
  rm-8: { kind: reamer, diameter: 8, fit: H7, reach: 60, material: hss, holder: drill-chuck }
  rm-10: { kind: reamer, diameter: 10, fit: H7, reach: 70, material: hss, holder: drill-chuck }
  rm-12: { kind: reamer, diameter: 12, fit: H7, reach: 80, material: hss, holder: drill-chuck }
  bh-10-50: { kind: boring-head, diameter: 10, largest: 50, reach: 50, largest-speed: 1000, material: carbide, holder: boring-body }
  # Taps, ISO 529: plug, and bottoming for the sizes that blind holes mostly have.
  tap-m2: { kind: tap, thread: M2, chamfer: plug, reach: 13, material: hss, holder: er20-short }
  tap-m2.5: { kind: tap, thread: M2.5, chamfer: plug, reach: 15, material: hss, holder: er20-short }
  tap-m3: { kind: tap, thread: M3, chamfer: plug, reach: 18, material: hss, holder: er20-short }
  tap-m4: { kind: tap, thread: M4, chamfer: plug, reach: 21, material: hss, holder: er20-short }
  tap-m5: { kind: tap, thread: M5, chamfer: plug, reach: 25, material: hss, holder: er20-short }
  tap-m6: { kind: tap, thread: M6, chamfer: plug, reach: 30, material: hss, holder: er20-short }
  tap-m8: { kind: tap, thread: M8, chamfer: plug, reach: 35, material: hss, holder: er20-short }
  tap-m10: { kind: tap, thread: M10, chamfer: plug, reach: 39, material: hss, holder: er20-short }
  tap-m12: { kind: tap, thread: M12, chamfer: plug, reach: 48, material: hss, holder: er20-short }
  tap-m3-bottoming: { kind: tap, thread: M3, chamfer: bottoming, reach: 18, material: hss, holder: er20-short }
  tap-m4-bottoming: { kind: tap, thread: M4, chamfer: bottoming, reach: 21, material: hss, holder: er20-short }
  tap-m5-bottoming: { kind: tap, thread: M5, chamfer: bottoming, reach: 25, material: hss, holder: er20-short }
  tap-m6-bottoming: { kind: tap, thread: M6, chamfer: bottoming, reach: 30, material: hss, holder: er20-short }
  tap-m8-bottoming: { kind: tap, thread: M8, chamfer: bottoming, reach: 35, material: hss, holder: er20-short }
  # Seats for heads: countersinks DIN 335, counterbores with pilot DIN 373.
  cs-6.3: { kind: countersink, diameter: 6.3, angle: 90, tip: 1.5, reach: 20, material: hss, holder: drill-chuck }
  cs-10.4: { kind: countersink, diameter: 10.4, angle: 90, tip: 2.5, reach: 20, material: hss, holder: drill-chuck }
  cs-16.5: { kind: countersink, diameter: 16.5, angle: 90, tip: 3.2, reach: 20, material: hss, holder: drill-chuck }
  cs-25: { kind: countersink, diameter: 25, angle: 90, tip: 3.8, reach: 25, material: hss, holder: drill-chuck }
  cb-m3: { kind: counterbore-cutter, diameter: 6.5, pilot: 3.4, reach: 20, material: hss, holder: drill-chuck }
  cb-m4: { kind: counterbore-cutter, diameter: 8, pilot: 4.5, reach: 22, material: hss, holder: drill-chuck }
  cb-m5: { kind: counterbore-cutter, diameter: 10, pilot: 5.5, reach: 25, material: hss, holder: drill-chuck }
  cb-m6: { kind: counterbore-cutter, diameter: 11, pilot: 6.6, reach: 25, material: hss, holder: drill-chuck }
  cb-m8: { kind: counterbore-cutter, diameter: 15, pilot: 9, reach: 30, material: hss, holder: drill-chuck }
  cb-m10: { kind: counterbore-cutter, diameter: 18, pilot: 11, reach: 35, material: hss, holder: drill-chuck }
  # Under an edge: T-slots DIN 851, a 60° dovetail DIN 1833, and discs for ring grooves inside a bore.
  tee-12.5: { kind: tee-cutter, diameter: 12.5, neck: 5, thickness: 6, reach: 17, flutes: 6, shank: 10, material: hss, holder: er20-short }
  tee-16: { kind: tee-cutter, diameter: 16, neck: 7, thickness: 8, reach: 22, flutes: 6, shank: 10, material: hss, holder: er20-short }
  dt-16: { kind: dovetail-cutter, diameter: 16, neck: 8, thickness: 6.3, angle: 60, reach: 20, flutes: 6, shank: 12, material: hss, holder: er20-short }
  gr-1.1: { kind: tee-cutter, diameter: 10, neck: 6, thickness: 1.1, reach: 22, flutes: 6, shank: 6, material: carbide, holder: er20-short }
  gr-1.6: { kind: tee-cutter, diameter: 16, neck: 10, thickness: 1.6, reach: 26, flutes: 6, shank: 10, material: carbide, holder: er20-short }

rack:
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 20, thickness: 10 }, lengths: [1000, 3000], per-metre: 4.9 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 25, thickness: 10 }, lengths: [1000, 3000], per-metre: 6.1 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 30, thickness: 10 }, lengths: [1000, 3000], per-metre: 7.3 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 10 }, lengths: [1000, 3000], per-metre: 9.7 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 40, thickness: 16 }, lengths: [1000, 3000], per-metre: 15.6 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 50, thickness: 10 }, lengths: [1000, 3000], per-metre: 12.2 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 50, thickness: 20 }, lengths: [1000, 3000], per-metre: 24.3 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 60, thickness: 16 }, lengths: [1000, 3000], per-metre: 23.3 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 60, thickness: 20 }, lengths: [1000, 3000], per-metre: 29.2 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 80, thickness: 10 }, lengths: [1000, 3000], per-metre: 19.4 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 80, thickness: 20 }, lengths: [1000, 3000], per-metre: 38.9 }
  - { form: flat-bar, material: aluminium-6061-t6, section: { width: 100, thickness: 20 }, lengths: [1000, 3000], per-metre: 48.6 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 20 }, lengths: [1000, 3000], per-metre: 9.7 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 25 }, lengths: [1000, 3000], per-metre: 15.2 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 30 }, lengths: [1000, 3000], per-metre: 21.9 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 40 }, lengths: [1000, 3000], per-metre: 38.9 }
  - { form: square-bar, material: aluminium-6061-t6, section: { width: 50 }, lengths: [1000, 3000], per-metre: 60.8 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 12, lengths: [1000, 3000], per-metre: 2.7 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 16, lengths: [1000, 3000], per-metre: 4.9 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 20, lengths: [1000, 3000], per-metre: 7.6 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 25, lengths: [1000, 3000], per-metre: 11.9 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 30, lengths: [1000, 3000], per-metre: 17.2 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 40, lengths: [1000, 3000], per-metre: 30.5 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 50, lengths: [1000, 3000], per-metre: 47.7 }
  - { form: round-bar, material: aluminium-6061-t6, diameter: 60, lengths: [1000, 3000], per-metre: 68.7 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 3 }, lengths: [250, 500, 1000], per-metre: 36.5 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 4 }, lengths: [250, 500, 1000], per-metre: 48.6 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 5 }, lengths: [250, 500, 1000], per-metre: 60.8 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 6 }, lengths: [250, 500, 1000], per-metre: 72.9 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 8 }, lengths: [250, 500, 1000], per-metre: 97.2 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 10 }, lengths: [250, 500, 1000], per-metre: 121.5 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 12 }, lengths: [250, 500, 1000], per-metre: 145.8 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 16 }, lengths: [250, 500, 1000], per-metre: 194.4 }
  - { form: plate, material: aluminium-6061-t6, section: { width: 500, thickness: 20 }, lengths: [250, 500, 1000], per-metre: 243 }
  - { form: flat-bar, material: aluminium-7075-t6, section: { width: 30, thickness: 10 }, lengths: [1000, 3000], per-metre: 13.5 }
  - { form: flat-bar, material: aluminium-7075-t6, section: { width: 40, thickness: 16 }, lengths: [1000, 3000], per-metre: 28.8 }
  - { form: flat-bar, material: aluminium-7075-t6, section: { width: 60, thickness: 20 }, lengths: [1000, 3000], per-metre: 54 }
  - { form: flat-bar, material: aluminium-7075-t6, section: { width: 80, thickness: 20 }, lengths: [1000, 3000], per-metre: 71.9 }
  - { form: round-bar, material: aluminium-7075-t6, diameter: 20, lengths: [1000, 3000], per-metre: 14.1 }
  - { form: round-bar, material: aluminium-7075-t6, diameter: 30, lengths: [1000, 3000], per-metre: 31.8 }
  - { form: round-bar, material: aluminium-7075-t6, diameter: 40, lengths: [1000, 3000], per-metre: 56.5 }
  - { form: plate, material: aluminium-7075-t6, section: { width: 500, thickness: 6 }, lengths: [250, 500, 1000], per-metre: 134.9 }
  - { form: plate, material: aluminium-7075-t6, section: { width: 500, thickness: 8 }, lengths: [250, 500, 1000], per-metre: 179.8 }
  - { form: plate, material: aluminium-7075-t6, section: { width: 500, thickness: 10 }, lengths: [250, 500, 1000], per-metre: 224.8 }
  - { form: plate, material: aluminium-7075-t6, section: { width: 500, thickness: 16 }, lengths: [250, 500, 1000], per-metre: 359.7 }
  - { form: plate, material: aluminium-7075-t6, section: { width: 500, thickness: 20 }, lengths: [250, 500, 1000], per-metre: 449.6 }
  - { form: round-bar, material: aluminium-2017a-t4, diameter: 20, lengths: [1000, 3000], per-metre: 10.5 }
  - { form: round-bar, material: aluminium-2017a-t4, diameter: 30, lengths: [1000, 3000], per-metre: 23.7 }
  - { form: round-bar, material: aluminium-2017a-t4, diameter: 40, lengths: [1000, 3000], per-metre: 42.1 }
  - { form: round-bar, material: aluminium-2017a-t4, diameter: 50, lengths: [1000, 3000], per-metre: 65.7 }
  - { form: plate, material: aluminium-2017a-t4, section: { width: 500, thickness: 8 }, lengths: [250, 500, 1000], per-metre: 133.9 }
  - { form: plate, material: aluminium-2017a-t4, section: { width: 500, thickness: 10 }, lengths: [250, 500, 1000], per-metre: 167.4 }
  - { form: plate, material: aluminium-2017a-t4, section: { width: 500, thickness: 20 }, lengths: [250, 500, 1000], per-metre: 334.8 }
  - { form: flat-bar, material: steel-s235jr, section: { width: 20, thickness: 10 }, lengths: [1000, 3000], per-metre: 3.9 }
  - { form: flat-bar, material: steel-s235jr, section: { width: 30, thickness: 10 }, lengths: [1000, 3000], per-metre: 5.9 }
  - { form: flat-bar, material: steel-s235jr, section: { width: 40, thickness: 10 }, lengths: [1000, 3000], per-metre: 7.9 }
  - { form: flat-bar, material: steel-s235jr, section: { width: 50, thickness: 20 }, lengths: [1000, 3000], per-metre: 19.6 }
  - { form: plate, material: steel-s235jr, section: { width: 500, thickness: 5 }, lengths: [250, 500, 1000], per-metre: 49.1 }
  - { form: plate, material: steel-s235jr, section: { width: 500, thickness: 10 }, lengths: [250, 500, 1000], per-metre: 98.1 }
  - { form: round-bar, material: steel-c45, diameter: 16, lengths: [1000, 3000], per-metre: 4.7 }
  - { form: round-bar, material: steel-c45, diameter: 20, lengths: [1000, 3000], per-metre: 7.4 }
  - { form: round-bar, material: steel-c45, diameter: 30, lengths: [1000, 3000], per-metre: 16.6 }
  - { form: round-bar, material: steel-c45, diameter: 40, lengths: [1000, 3000], per-metre: 29.6 }
  - { form: flat-bar, material: steel-c45, section: { width: 40, thickness: 20 }, lengths: [1000, 3000], per-metre: 18.8 }
  - { form: round-bar, material: brass-cw614n, diameter: 10, lengths: [1000, 3000], per-metre: 7.3 }
  - { form: round-bar, material: brass-cw614n, diameter: 16, lengths: [1000, 3000], per-metre: 18.7 }
  - { form: round-bar, material: brass-cw614n, diameter: 20, lengths: [1000, 3000], per-metre: 29.3 }
  - { form: round-bar, material: brass-cw614n, diameter: 30, lengths: [1000, 3000], per-metre: 65.9 }
  - { form: round-bar, material: pom-c, diameter: 20, lengths: [1000, 3000], per-metre: 5.3 }
  - { form: round-bar, material: pom-c, diameter: 40, lengths: [1000, 3000], per-metre: 21.3 }
  - { form: round-bar, material: pom-c, diameter: 60, lengths: [1000, 3000], per-metre: 47.8 }
  - { form: plate, material: pom-c, section: { width: 500, thickness: 10 }, lengths: [250, 500, 1000], per-metre: 84.6 }
  - { form: plate, material: pom-c, section: { width: 500, thickness: 20 }, lengths: [250, 500, 1000], per-metre: 169.2 }

rates: { machine-hour: 25, person-hour: 0, currency: EUR }
`;
