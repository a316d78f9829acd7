/** What a process holds on an ordinary machine: tolerance grades and roughness. Ranges, not promises. */

interface ProcessAbility {
  readonly name: string;
  /** Finest and coarsest ISO 286 grade usually held; absent where no figure is at hand. */
  readonly grades?: readonly [number, number];
  /** Ra, µm. */
  readonly raUm?: readonly [number, number];
  readonly source: string;
}

const HANDBOOK =
  "grades: the ANSI B4.2 / Machinery's Handbook figure, from memory; roughness: a public table of processes";

export const PROCESSES: readonly ProcessAbility[] = [
  { name: 'drilling', grades: [10, 13], raUm: [1.6, 6.3], source: HANDBOOK },
  { name: 'reaming', grades: [6, 10], raUm: [0.8, 3.1], source: HANDBOOK },
  { name: 'boring', grades: [8, 13], raUm: [0.4, 6.3], source: HANDBOOK },
  { name: 'turning', grades: [7, 13], raUm: [0.4, 6.3], source: HANDBOOK },
  { name: 'milling', grades: [10, 13], raUm: [0.8, 6.3], source: HANDBOOK },
  { name: 'fine-milling', grades: [7, 9], raUm: [0.4, 1.6], source: 'a good numerically controlled mill, from memory' },
  { name: 'planing', grades: [10, 13], raUm: [1.6, 12.5], source: HANDBOOK },
  { name: 'broaching', grades: [5, 8], raUm: [0.8, 3.1], source: HANDBOOK },
  { name: 'surface-grinding', grades: [5, 8], raUm: [0.1, 1.6], source: HANDBOOK },
  { name: 'cylindrical-grinding', grades: [5, 7], raUm: [0.1, 1.6], source: HANDBOOK },
  { name: 'lapping', grades: [4, 5], raUm: [0.05, 0.8], source: HANDBOOK },
  { name: 'sawing', raUm: [1.6, 25], source: 'a public table of processes' },
];

const byName = new Map(PROCESSES.map((process) => [process.name, process]));

/** What a process holds, by its name in the table; undefined for a name that is not there. */
export function processAbility(name: string): ProcessAbility | undefined {
  return byName.get(name);
}
