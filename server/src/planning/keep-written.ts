/**
 * What a person wrote into set-ups that a plan says nothing of: it stays with the set-up of its name, or where its feature is
 * now cut. What has no place any more is a remark, so that nothing is lost.
 */
import { featureNameOf } from '../model/member-name';
import type { Named, Part, Setup } from '../model/model';
import { holdWritten } from '../rules/kit/write-hold';
import { writeLength } from '../text/format';
import { flowText, type Writing } from '../text/write';

interface Kept {
  readonly setups: readonly Setup[];
  /** What has no place, each as it was written. */
  readonly remarks: readonly string[];
}

/** The planned set-ups with what the part’s own say besides. */
export function withWritten(planned: readonly Setup[], part: Part): Kept {
  const keeping = new Keeping([...planned], part);
  for (const was of part.setups ?? []) keeping.keep(was);
  return keeping;
}

class Keeping implements Kept {
  readonly remarks: string[] = [];

  constructor(
    readonly setups: Setup[],
    private readonly part: Part,
  ) {}

  keep(was: Setup): void {
    this.machine(was);
    this.tools(was);
    const now = this.now(was);
    const { method, clock } = was;
    if (method && now && !now.method && isSameZero(was, now)) this.change(now, { method });
    else if (method && now?.method?.name !== method.name) this.remark(was, 'method', method.name);
    if (clock && now && !now.clock && isSameHold(was, now)) this.change(now, { clock });
    else if (clock && now?.clock?.of.name !== clock.of.name) this.remark(was, 'clock', { [clock.by]: clock.of.name });
    const hold = specialOf(was, now, this.part);
    if (hold) this.remark(was, 'hold', hold);
    this.saw(was);
  }

  private machine(was: Setup): void {
    const { machine } = was;
    if (!machine) return;
    const to = onlyMachine(this.part) === undefined ? [this.now(was)] : [...this.setups];
    for (const setup of to) if (setup && !setup.machine) this.change(setup, { machine });
    if (!this.setups.some((s) => s.machine?.name === machine.name)) this.remark(was, 'machine', machine.name);
  }

  /** A tool stays with its feature, wherever that is cut now. */
  private tools(was: Setup): void {
    for (const { of, tool } of was.tools) {
      const to = [this.now(was), ...this.setups].find((s) => s && cutsIt(s, of));
      const there = to?.tools.find((t) => t.of.name === of.name)?.tool.name;
      if (to && there === undefined) this.change(to, { tools: [...to.tools, { of, tool }] });
      else if (there !== tool.name) this.remark(was, 'tools', { [of.name]: tool.name });
    }
  }

  private saw(was: Setup): void {
    const { sawnOff } = was;
    if (!sawnOff || this.setups.some((s) => s.sawnOff?.name === sawnOff.name)) return;
    const leave = sawnOff.leave && { leave: Number(writeLength(sawnOff.leave.mm, this.part.units)) };
    this.remark(was, 'cuts', { cut: sawnOff.name, by: 'saw', ...leave });
  }

  /** The set-up of the same name with the same face up. */
  private now({ name, up }: Setup): Setup | undefined {
    return this.setups.find((s) => s.name === name && s.up?.name === up?.name);
  }

  private change({ name }: Setup, more: Partial<Setup>): void {
    const i = this.setups.findIndex((s) => s.name === name);
    this.setups[i] = { ...this.setups[i]!, ...more };
  }

  private remark({ name }: Setup, key: string, value: Writing): void {
    this.remarks.push(`${name}: ${key}: ${flowText(value)}`);
  }
}

/** The one machine that every set-up of the text names. */
export function onlyMachine({ setups = [] }: Part): string | undefined {
  const names = new Set(setups.map((s) => s.machine?.name));
  return names.size === 1 ? [...names][0] : undefined;
}

function cutsIt({ cuts }: Setup, { name }: Named): boolean {
  return cuts.some((c) => c.name === name || c.name === featureNameOf(name));
}

function isSameZero(a: Setup, b: Setup): boolean {
  return (['x', 'y', 'z'] as const).every((axis) => a.zero[axis]?.name === b.zero[axis]?.name);
}

function isSameHold({ hold: a }: Setup, { hold: b }: Setup): boolean {
  return a?.type === b?.type && jawsOf(a) === jawsOf(b);
}

const jawsOf = (hold: Setup['hold']) => hold?.jaws?.map((j) => j.name).join();

/** What every plan says of a hold in its own way. */
const OF_PLANS: ReadonlySet<string> = new Set(['vise', 'soft-jaws', 'jaws', 'grip', 'parallels', 'stop']);

/** What of a hold is more than a plan’s own choice, and is not in it. */
function specialOf(was: Setup, now: Setup | undefined, part: Part): Writing | undefined {
  const written = ({ hold, up }: Setup) =>
    hold ? holdWritten(hold, up?.name ?? 'top', (mm) => Number(writeLength(mm, part.units))) : {};
  const before = Object.entries(written(was) as Readonly<Record<string, Writing>>);
  const after = now ? (written(now) as Readonly<Record<string, Writing>>) : {};
  const gone = before.filter(([key]) => !(key in after));
  const isSpecial = gone.some(([key]) => !OF_PLANS.has(key) || (now && isSameHold(was, now)));
  return isSpecial ? Object.fromEntries(gone) : undefined;
}
