/** What of materials can hurt, in the usual words. Data only. */

/**
 * What can hurt. Each is the usual caution only; the shop's own rules and trained staff go before it.
 */
export const CAUTIONS = {
  magnesium: {
    text: 'Magnesium chips and dust burn, and water makes it worse. Machine dry, never let the cutter rub, and keep chips dry in a closed bin. Keep metal-fire powder ready, never water.',
    source: 'T.O. 1-1A-9 / TM 43-0106',
  },
  titanium: {
    text: 'Fine titanium chips can catch fire. Use sharp tools, low speed and plenty of coolant. Keep fine chips from piling up, and a metal-fire extinguisher (class D) within reach.',
    source: 'common practice, from memory',
  },
  beryllium: {
    text: 'Beryllium dust harms the lungs for life (limit 0.2 µg/m³ over 8 h). Cut it only wet, enclosed, with extraction, and where the shop has rules for it.',
    source: 'OSHA 29 CFR 1910.1024, from memory',
  },
  fibres: {
    text: 'Glass and carbon fibre dust harms lungs and skin, and carbon dust conducts. Use extraction or cut wet, and wear a fitted mask (P100 or P3). Use no compressed air for cleaning.',
    source: 'common practice, from memory',
  },
  lead: {
    text: 'Free-cutting brass contains lead. Wash your hands before you eat, and keep the chips apart.',
    source: 'common practice, from memory',
  },
  leaded: {
    text: 'This free-cutting alloy contains lead. Wash your hands before you eat, and keep the chips apart.',
    source: 'common practice, from memory',
  },
  strings: {
    text: 'It comes off in long strings that wind round the tool and grab. Stop the spindle before you take them off, and never pull at them while it turns.',
    source: 'common practice, no source',
  },
  formaldehyde: {
    text: 'Overheated acetal gives off formaldehyde. Use sharp tools, moderate speed and air, and never burn the chips.',
    source: 'common practice, from memory',
  },
  fluorine: {
    text: 'Overheated PTFE gives off poisonous fumes. Use sharp tools, keep it cool, and do not smoke near it.',
    source: 'common practice, from memory',
  },
} as const;
