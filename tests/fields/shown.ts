/** All that comes of a few documents, each kind of answer as one text: two of them differ where a field counts. */
import { finished } from '../../server/src/export/step';
import { costOf, spentBy } from '../../server/src/planning/cost';
import { jobFactsLines } from '../../server/src/report/job';
import type { CheckedPart } from '../../server/src/rules/checked-part';
import type { Finding } from '../../server/src/rules/kit/rule';
import type { FileText, Host } from '../../server/src/service/host';
import { hoverAt } from '../../server/src/service/hover';
import type { JobSnapshot, Snapshot } from '../../server/src/service/snapshot';
import { sizesIn } from '../../server/src/service/variants';
import { Workspace } from '../../server/src/service/workspace';
import { drawingOf } from '../../server/src/sheet/drawing/drawing';
import { jobPaper } from '../../server/src/sheet/job/data';
import { coverLines } from '../../server/src/sheet/job/markdown';
import { wordsOf } from '../../server/src/sheet/language';
import { sheetLines } from '../../server/src/sheet/markdown';

export const SHOWN = ['check', 'drawing', 'export', 'sheet', 'time', 'refused', 'hover'] as const;
export type Shown = (typeof SHOWN)[number];
export type Files = Readonly<Record<string, string>>;

const FOLDER = 'mem:///w';

function hostOf(files: Readonly<Record<string, FileText>>): Host {
  const paths = Object.keys(files).map((name) => `${FOLDER}/${name}`);
  return {
    log: () => undefined,
    read: async (path) => files[path.slice(FOLDER.length + 1)],
    list: async (folder) =>
      paths.filter((p) => p.slice(0, p.lastIndexOf('/')) === folder).map((p) => p.slice(folder.length + 1)),
    documents: async () => paths,
  };
}

/** The answer about `name`: a text, or undefined where there is none of this kind. Asked one by one: some take long. */
export class Answers {
  readonly #workspace: Workspace;
  readonly #name: string;
  readonly #made = new Map<Shown, Promise<string | undefined>>();

  constructor(files: Files, name: string) {
    this.#workspace = new Workspace(hostOf(files), { roots: [FOLDER] });
    this.#name = name;
  }

  snapshot(): Promise<Snapshot | undefined> {
    return this.#workspace.snapshot(`${FOLDER}/${this.#name}`);
  }

  of(shown: Shown): Promise<string | undefined> {
    if (!this.#made.has(shown)) this.#made.set(shown, this.#make(shown));
    return this.#made.get(shown)!;
  }

  async #make(shown: Shown): Promise<string | undefined> {
    const snapshot = await this.snapshot();
    if (!snapshot) return undefined;
    if (shown === 'check') return found(snapshot.findings);
    if (shown === 'refused') return undefined;
    if (shown === 'hover') return hovers(snapshot);
    if (snapshot.kind === 'part') {
      const sizes = sizesIn(snapshot).map(({ checked }) => PART[shown](checked));
      return sizes.includes(undefined) ? undefined : sizes.join('\n');
    }
    return snapshot.kind === 'job' ? this.#ofJob(shown, snapshot) : undefined;
  }

  async #ofJob(shown: Shown, snapshot: JobSnapshot): Promise<string | undefined> {
    const { job } = snapshot.checked;
    const pieces = await this.#workspace.piecesOf(`${FOLDER}/${this.#name}`, job);
    if (shown === 'time') return jobFactsLines('', job, pieces, true).join('\n');
    if (shown === 'sheet') return coverLines(jobPaper(job, pieces, { bars: [] }), wordsOf('en')).join('\n');
    return pieces.map(({ checked }) => PART[shown as 'drawing'](checked)).join('\n');
  }
}

/** What the pointer is told on the head of each entry, of features, set-ups, joints; and on what is named for all of it. */
function hovers(snapshot: Snapshot): string {
  const { tree } = snapshot.checked;
  const entries = tree.root?.entries ?? [];
  const heads = entries.flatMap(({ value }) => (value?.type === 'map' ? value.entries.map(({ key }) => key) : []));
  const named = entries.flatMap(({ value }) => (value?.type === 'scalar' ? [value] : []));
  return [...heads, ...named]
    .map(({ source, span }) => `${source}: ${hoverAt(snapshot, tree.locate(span).start + 1)?.contents.value}`)
    .join('\n');
}

function found(findings: readonly Finding[]): string {
  return JSON.stringify(findings.map(({ rule, severity, message, facts }) => [rule, severity, message, facts]));
}

const KERNEL = `ISO-10303-21;
HEADER;
FILE_SCHEMA(('X'));
ENDSEC;
DATA;
#1 = PRODUCT('','','',(#9));
#2 = PRODUCT_DEFINITION_FORMATION('','',#1);
#3 = PRODUCT_DEFINITION('','',#2,#9);
#4 = SHAPE_REPRESENTATION('',(#9),#9);
#9 = CONTEXT();
ENDSEC;
END-ISO-10303-21;
`;
const ASKED = { creator: 'x', when: new Date(0) };

const PART: Readonly<
  Record<Exclude<Shown, 'check' | 'refused' | 'hover'>, (checked: CheckedPart) => string | undefined>
> = {
  drawing: (checked) => JSON.stringify(drawingOf(checked, { size: 'large' }).pages),
  // What is said beside the shape, and the shape by its volume and balance.
  export: (checked) => {
    const { volumeMm3, centroid } = checked.solid.measures;
    const shape = [volumeMm3, ...centroid].map((x) => x.toFixed(4));
    return [finished(KERNEL, { ...ASKED, checked }), ...shape].join('\n');
  },
  // Planning would cost seconds a field: parts have their set-ups written.
  sheet: (checked) => {
    if (!checked.part.setups) return undefined;
    const asked = { ...ASKED, checked, file: 'a.part.yaml', mark: '0' };
    return sheetLines(asked, 'en').lines.join('\n');
  },
  time: (checked) => {
    const made = { checked, quantity: checked.part.quantity };
    return JSON.stringify([spentBy(made), costOf([made])]);
  },
};
