/** The plan's page: takes a plan in words from the extension and shows it; what is pressed goes back. */
import { type FromPlan, type PlanShown, toPlan } from './plan-messages';
import { planSections } from './plan-sections';

declare function acquireVsCodeApi(): { postMessage(message: FromPlan): void };
const host = acquireVsCodeApi();
const tell = (message: FromPlan) => host.postMessage(message);

const byId = <T extends HTMLElement>(id: string) => document.getElementById(id) as T;
const main = document.querySelector('main')!;
const status = byId('status');
const underWay = byId('under-way');
const progress = byId<HTMLProgressElement>('progress');
const seconds = byId('seconds');
const write = byId<HTMLButtonElement>('write');
const step = byId<HTMLButtonElement>('step');
const again = byId<HTMLButtonElement>('again');
const cancel = byId<HTMLButtonElement>('cancel');

cancel.addEventListener('click', () => tell({ type: 'cancel' }));
again.addEventListener('click', () => tell({ type: 'again' }));
write.addEventListener('click', () => tell({ type: 'write' }));
step.addEventListener('click', () => tell({ type: 'step', setup: 0 }));
main.addEventListener('click', ({ target }) => {
  const { step: setup } = (target as HTMLElement).dataset;
  if (setup !== undefined) tell({ type: 'step', setup: Number(setup) });
});

const KEYS: Readonly<Record<string, HTMLButtonElement>> = { w: write, s: step, p: again, Escape: cancel };
addEventListener('keydown', (e) => {
  const button = e.ctrlKey || e.metaKey || e.altKey ? undefined : KEYS[e.key];
  if (!button || button.disabled || button.closest('[hidden]')) return;
  e.preventDefault();
  button.click();
});

let begun: number | undefined;
setInterval(() => {
  if (begun !== undefined) seconds.textContent = `${Math.round((performance.now() - begun) / 1000)} s`;
}, 500);

/** What the buttons can do now. */
function can(what: { readonly write?: boolean; readonly step?: boolean; readonly busy?: boolean }): void {
  write.disabled = !what.write || what.busy === true;
  step.disabled = !what.step || what.busy === true;
  again.disabled = what.busy === true;
  underWay.hidden = what.busy !== true;
}

let shown: PlanShown | undefined;
let changed = false;
function able(busy = false): void {
  const setups = shown?.page.setups.length ?? 0;
  can({ write: !changed && shown?.whole === true, step: !changed && setups > 0, busy });
}

addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = toPlan(data);
  switch (message?.type) {
    case 'plan':
      shown = message.plan;
      changed = false;
      main.replaceChildren(...planSections(shown.page));
      main.classList.remove('older');
      status.textContent = shown.refused?.replaceAll('`', '') ?? '';
      document.body.dataset.part = shown.part;
      return able();
    case 'progress':
      begun ??= performance.now();
      progress.max = message.of;
      progress.value = message.done;
      byId('what').textContent = message.what;
      status.textContent = '';
      return able(true);
    case 'rests':
      begun = undefined;
      seconds.textContent = '';
      return able();
    case 'older':
      changed = true;
      main.classList.add('older');
      status.textContent = message.why;
      return able(begun !== undefined);
    case 'written':
      changed = true;
      status.textContent = 'Written into the text.';
      return able();
    case 'empty':
      shown = undefined;
      main.replaceChildren();
      status.textContent = '';
      return able(begun !== undefined);
    default:
      message satisfies undefined;
  }
});

able();
tell({ type: 'ready' });
