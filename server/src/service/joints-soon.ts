/**
 * What a part's jobs say of how it meets the others, found after the answer that it is told with: looked for in the folders
 * above the part, as its shop is. Until it is found anew, what was found of the text before stands.
 */
import { jointFindings } from '../rules/joints';
import type { Finding } from '../rules/kit/rule';
import { resolvePath } from './documents';
import { keyOf } from './file-key';
import type { Pace } from './pace';
import { type JobRead, type PartSnapshot, partWith } from './snapshot';

interface Known {
  readonly said: string;
  readonly findings: readonly Finding[];
  /** The last part it was told with, so that the same is the same object. */
  lastTold?: { readonly part: PartSnapshot; readonly with: PartSnapshot };
}
const NOTHING: Known = { said: '[]', findings: [] };

export class JointsSoon {
  readonly #jobsOf: (path: string) => Promise<readonly JobRead[]>;
  readonly #pace: Pace;
  readonly #news: () => void;
  readonly #known = new Map<string, Known>();
  readonly #looking = new Map<string, Promise<void>>();

  constructor(jobsOf: (path: string) => Promise<readonly JobRead[]>, pace: Pace, news: () => void) {
    this.#jobsOf = jobsOf;
    this.#pace = pace;
    this.#news = news;
  }

  /** With what is known by now. */
  with(part: PartSnapshot): PartSnapshot {
    const known = this.#known.get(part.path);
    if (!known || known.findings.length === 0) return part;
    if (known.lastTold?.part !== part) known.lastTold = { part, with: partWith(part, known.findings) };
    return known.lastTold.with;
  }

  /** Looks again, and tells where something else came of it than was known. */
  look({ path }: PartSnapshot): Promise<void> {
    const known = this.#looking.get(path);
    if (known) return known;
    const looking = this.#look(path).finally(() => this.#looking.delete(path));
    this.#looking.set(path, looking);
    return looking;
  }

  /** The document was closed. */
  forget(path: string): void {
    this.#known.delete(path);
  }

  async #look(path: string): Promise<void> {
    await this.#pace.pause();
    const jobs = await this.#jobsOf(path);
    const findings = jobs.flatMap((job) => jointsTold(path, job).map(({ here }) => here));
    const said = JSON.stringify(findings);
    if (said === (this.#known.get(path) ?? NOTHING).said) return;
    this.#known.set(path, { said, findings });
    this.#news();
  }
}

/** What the joints of a job say at places of one of its parts: as it is told there, and as the job has it. */
export interface JointTold {
  readonly here: Finding;
  readonly finding: Finding;
}

export function jointsTold(path: string, { path: home, checked, lines, pieces }: JobRead): readonly JointTold[] {
  const { job, tree } = checked;
  return [...jointFindings(job, pieces)].flatMap((finding) => {
    const at = finding.related.find((r) => r.elsewhere && resolvePath(home, r.elsewhere.file) === keyOf(path));
    if (!at?.elsewhere) return [];
    const { start, end } = tree.locate(finding.span);
    const range = { start: lines.position(start), end: lines.position(end) };
    const there = {
      span: at.span,
      message: `${finding.thing} of ${job.name}`,
      elsewhere: { file: home, span: at.span, range },
    };
    return [{ here: { ...finding, span: at.elsewhere.span, of: [], related: [there] }, finding }];
  });
}
