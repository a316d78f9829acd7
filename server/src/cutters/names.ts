/** Names for tools, from kind and size: `em-6`, `dr-4.2`, `tap-m5-bottoming`, and what tells two of one size apart. */
import type { Drafted } from './entry';
import { LISTED } from './listed';

/** Values that go without saying. */
const USUAL: ReadonlySet<string> = new Set(['0', 'H7', 'plug', 'no']);

export function nameFor({ kind, fields }: Drafted, taken: (name: string) => boolean): string {
  const { prefix, named = {} } = LISTED[kind];
  const sizes = Object.entries(named).flatMap(([field, sign]) => {
    const value = fields[field];
    return value === undefined || USUAL.has(value) ? [] : [`${sign}${value === 'yes' ? '' : value}`];
  });
  const plain = worded(`${prefix}-${fields.thread ?? fields.diameter ?? ''}${sizes.join('')}`);
  const reach = fields.reach ?? fields['flute-length'];
  const more = [reach !== undefined && `-l${reach}`, fields.flutes !== undefined && `-z${fields.flutes}`].filter(
    (w) => w !== false,
  );
  const tries = [plain, ...more.map((w) => worded(plain + w)), worded(plain + more.join(''))];
  const free = tries.find((name) => !taken(name));
  if (free !== undefined) return free;
  for (let n = 2; ; n++) if (!taken(`${plain}-${n}`)) return `${plain}-${n}`;
}

function worded(name: string): string {
  return name
    .toLowerCase()
    .replace(/ in\b/g, 'in')
    .replace(/[^a-z0-9.]+/g, '-')
    .replace(/^-+|-+$/g, '');
}
