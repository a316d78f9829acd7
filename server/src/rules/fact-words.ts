/** Facts as people read them: `thickness_mm` is a thickness, and its value has a unit. The keys are for programs. */

/** How a key ends, and the unit that it says. */
const UNITS: Readonly<Record<string, string>> = {
  mm: ' mm',
  mm2: ' mm²',
  mm3: ' mm³',
  cm3: ' cm³',
  deg: '°',
  um: ' µm',
  n: ' N',
  kn: ' kN',
  nm: ' N·m',
  mpa: ' N/mm²',
  w: ' W',
  g: ' g',
  kg: ' kg',
  s: ' s',
  min: ' min',
  h: ' h',
  percent: ' %',
  rpm: ' rpm',
  mm_per_min: ' mm/min',
  m_per_min: ' m/min',
};

function partsOf(key: string): { readonly name: string; readonly unit: string } {
  const [, name, end] = /^(.+?)_(m{1,2}_per_min|[a-z0-9]+)$/.exec(key) ?? [];
  const unit = end !== undefined && Object.hasOwn(UNITS, end) ? UNITS[end] : undefined;
  return unit === undefined ? { name: named(key), unit: '' } : { name: named(name!), unit };
}

const named = (key: string) => key.replaceAll('set_up', 'set-up').replaceAll('_', ' ');

/** `thickness 0.4 mm`, `slope 28°`, `feed 400 mm/min`, `set-up first`. */
export function factWords(key: string, value: number | string): string {
  const { name, unit } = partsOf(key);
  return typeof value === 'number' ? `${name} ${Number(value.toPrecision(6))}${unit}` : `${name} ${value}`;
}

/** A text in which facts stand by their keys between backquotes, with their names in place of these. */
export function withFactWords(text: string): string {
  return text.replace(/`([a-z][a-z0-9]*(?:_[a-z0-9]+)+)`/g, (_, key: string) => partsOf(key).name);
}
