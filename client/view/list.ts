/** Features and findings as a list that a keyboard and a screen reader can use: up, down, Enter goes to the text. */

import type { Range } from '../../server/src/service/shapes';
import type { PictureWords } from '../../server/src/service/view/protocol';

export interface Entry {
  readonly id: string;
  readonly text: string;
  readonly detail: string;
  /** The rule's name, small behind what is wrong. */
  readonly rule?: string;
  readonly kind: string;
  /** Features that light up with it. */
  readonly of: readonly string[];
  readonly range?: Range | undefined;
  /** Its place among the picture's findings, or among the changes. */
  readonly finding?: number;
}

interface ListEvents {
  /** The entry under the keyboard or the pointer changed. */
  chosen(entry: Entry): void;
  /** Its text is wanted. */
  open(entry: Entry): void;
}

/** Findings come as they are found: one keeps its name though others are put before it. */
function idsOf(findings: PictureWords['findings']): readonly string[] {
  const seen = new Map<string, number>();
  return findings.map(({ rule, of }) => {
    const name = `finding-${rule}-${of.join('-')}`;
    const nth = (seen.get(name) ?? 0) + 1;
    seen.set(name, nth);
    return `${name}-${nth}`;
  });
}

/** A picture's findings, then its features, then what it lacks. */
export function entriesOf({
  features,
  findings,
  leftOut = [],
}: Pick<PictureWords, 'features' | 'findings' | 'leftOut'>): readonly Entry[] {
  const ids = idsOf(findings);
  return [
    ...findings.map((f, i) => ({
      id: ids[i]!,
      text: plain(f.says),
      detail: plain(f.more),
      rule: f.rule,
      kind: f.severity,
      of: f.of,
      range: f.range,
      finding: i,
    })),
    ...features.map((f) => ({
      id: `feature-${f.name}`,
      text: f.name,
      detail: f.kind,
      kind: 'feature',
      of: [f.name],
      range: f.nameRange,
    })),
    ...leftOut.map((f) => ({
      id: `left-out-${f.name}`,
      text: f.name,
      detail: 'not in the picture: it could not be read',
      kind: 'feature',
      of: [],
      range: f.nameRange,
    })),
  ];
}

export class List {
  readonly #box: HTMLElement;
  readonly #events: ListEvents;
  #entries: readonly Entry[] = [];
  #at = -1;

  constructor(box: HTMLElement, events: ListEvents) {
    this.#box = box;
    this.#events = events;
    box.addEventListener('keydown', (e) => this.#key(e));
    box.addEventListener('click', (e) => this.#click(e));
  }

  show(entries: readonly Entry[]): void {
    const chosen = this.#entries[this.#at]?.id;
    this.#entries = entries;
    this.#box.replaceChildren(
      ...this.#entries.map((e) => {
        const item = document.createElement('div');
        item.id = e.id.replace(/[^\w-]/g, '-');
        item.setAttribute('role', 'option');
        item.setAttribute('aria-selected', 'false');
        item.className = `entry ${e.kind}`;
        item.dataset.kind = e.kind;
        const name = document.createElement('span');
        name.className = 'name';
        name.textContent = e.text;
        const detail = document.createElement('span');
        detail.className = 'detail';
        detail.textContent = e.detail;
        item.title = [e.text, e.detail, ...(e.rule ? [`(${e.rule})`] : [])].join(' ').trim();
        item.append(name, detail);
        if (e.rule) item.append(small(e.rule));
        return item;
      }),
    );
    this.#at = this.#entries.findIndex((e) => e.id === chosen);
    this.#mark(false);
  }

  /** Of the chosen entry, where it is a finding. */
  get finding(): number | undefined {
    return this.#entries[this.#at]?.finding;
  }

  /** Chosen from elsewhere: the picture or the cursor. */
  choose(feature: string | undefined): void {
    const at = this.#entries.findIndex((e) => e.kind === 'feature' && e.text === feature);
    if (at === this.#at) return;
    this.#at = at;
    this.#mark(true);
  }

  /** A finding that was pressed in the picture: as if pressed here. */
  press(finding: number): void {
    this.go(this.#entries.findIndex((e) => e.finding === finding));
    this.#open();
  }

  #key(e: KeyboardEvent): void {
    const last = this.#entries.length - 1;
    const to: Readonly<Record<string, number>> = {
      ArrowDown: Math.min(last, this.#at + 1),
      ArrowUp: Math.max(0, this.#at - 1),
      Home: 0,
      End: last,
    };
    if (e.key in to) this.go(to[e.key]!);
    else if (e.key === 'Enter') this.#open();
    else return;
    e.preventDefault();
    e.stopPropagation();
  }

  #click(e: MouseEvent): void {
    const item = (e.target as Element).closest('.entry');
    if (!item) return;
    this.go([...this.#box.children].indexOf(item));
    this.#open();
  }

  /** To this entry, as if it had been chosen here. */
  go(at: number): void {
    if (!this.#entries[at]) return;
    this.#at = at;
    this.#mark(true);
    this.#events.chosen(this.#entries[at]);
  }

  #open(): void {
    const entry = this.#entries[this.#at];
    if (entry) this.#events.open(entry);
  }

  #mark(scroll: boolean): void {
    [...this.#box.children].forEach((item, i) => {
      item.setAttribute('aria-selected', String(i === this.#at));
      if (i === this.#at && scroll) item.scrollIntoView({ block: 'nearest' });
    });
    const current = this.#box.children[this.#at];
    if (current) this.#box.setAttribute('aria-activedescendant', current.id);
    else this.#box.removeAttribute('aria-activedescendant');
  }
}

function small(rule: string): HTMLElement {
  const made = document.createElement('span');
  made.className = 'rule';
  made.textContent = rule;
  return made;
}

/** Messages have names between backticks, for editors that draw them as code. */
function plain(message: string): string {
  return message.replaceAll('`', '');
}
