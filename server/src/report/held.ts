/** How a set-up holds the work, in words. */
import { type Hold, OPPOSITE } from '../model/model';
import { list, trimmed } from '../rules/kit/message';

/** In a few words, for lists of set-ups. */
export const WAYS: Readonly<Record<Hold['type'], string>> = {
  vise: 'in a vise',
  'v-block': 'in V-blocks',
  'angle-plate': 'against an angle plate',
  'soft-jaws': 'in soft jaws',
  clamps: 'under clamps',
  screws: 'screwed down through its own holes',
  tabs: 'in its stock by tabs',
  angle: 'held at an angle',
};

/** How a set-up holds the work, as one would tell it. */
export function heldText(hold: Hold, length: (mm: number) => string): string {
  const on = hold.on === 'plate' ? 'a plate' : 'the table';
  switch (hold.type) {
    case 'screws':
      return `screwed down to a plate through ${list(hold.screws!.map((s) => s.name))}`;
    case 'clamps':
      return `${hold.clamps!.length} clamps on ${on}, at ${placesText(hold, length)}`;
    case 'tabs':
      return `in its stock by ${hold.tabs!.count} tabs ${length(hold.tabs!.width.mm)} wide and ${length(hold.tabs!.height.mm)} high, the frame clamped to ${on}. Cut the tabs and file them off at the end`;
    case 'v-block':
      return `round, lying in ${hold.vBlock?.name} on ${on}, ${clampsText(hold, length)} over them${hold.stop ? `, stop at ${hold.stop.name}` : ''}`;
    case 'angle-plate':
      return `${hold.against?.name} against ${hold.anglePlate?.name}${hold.out ? `, ${length(hold.out.mm)} out above it (over an edge of the table where it is too long to stand on that)` : ', on the table beside its foot'}, ${clampsText(hold, length)} on ${hold.against && OPPOSITE[hold.against.name]}`;
    case 'vise':
    case 'soft-jaws':
    case 'angle': {
      const vise = hold.type === 'soft-jaws' ? `soft jaws milled to the part, in ${hold.vise?.name}` : hold.vise?.name;
      const tilt = hold.tilt ? `, tilted ${trimmed(hold.tilt.angle.deg, 2)}° about ${hold.tilt.about ?? '?'}` : '';
      const lies = hold.parallels?.mm ? `on ${length(hold.parallels.mm)} parallels` : 'on the vise bed';
      const two = hold.apart ? ` and another in line, ${length(hold.apart.mm)} from middle to middle` : '';
      const beside = hold.pieces ? `, two pieces ${length(hold.pieces.gapMm)} apart` : '';
      const block = hold.vBlock ? `, ${hold.vBlock.name} between ${hold.jaws?.[1]?.name} and the moving jaw` : '';
      const out = hold.overhang ? `, ${length(hold.overhang.by.mm)} out of the jaws on the ${hold.overhang.face}` : '';
      const stop = hold.stop ? `stop at ${hold.stop.name}` : 'no stop';
      return `${vise}${two}${tilt}, ${hold.jaws?.[0]?.name} against the fixed jaw${block}, ${length(hold.grip?.mm ?? 0)} in the jaws ${lies}, ${stop}${out}${beside}`;
    }
    default:
      return hold.type satisfies never;
  }
}

function placesText({ clamps = [] }: Hold, length: (mm: number) => string): string {
  return list(clamps.map((c) => `${length(c.u)} / ${length(c.v)}`));
}

function clampsText(hold: Hold, length: (mm: number) => string): string {
  return `${hold.clamps?.length ?? 0} clamps at ${placesText(hold, length)}`;
}
