/** A comparison of jobs in words: the same list for a terminal, a Markdown page and a page of its own. */
import { escapeMarkdown } from '../text/markdown';
import type { Place } from './entries';
import type { JobChange } from './job';
import { differenceText, figureText } from './lines';
import { jobPath } from './places';
import { unreadTexts, unreadVerdict } from './unread';

interface JobEntry {
  readonly word?: string;
  readonly text: string;
  readonly at?: Place;
}
interface JobSection {
  readonly title: 'Not compared' | 'Job' | 'Parts' | 'Joints' | 'Figures' | 'Findings';
  readonly entries: readonly JobEntry[];
}

const WORDS = { added: 'new', gone: 'gone', renamed: 'renamed', changed: 'changed' } as const;

/** Those that have something in them. */
export function jobSections({ unread, job, parts, joints, figures, findings }: JobChange): readonly JobSection[] {
  const told = (
    { kinds, name, wasName, is, differences }: JobChange['parts'][number],
    what: 'part' | 'joint',
  ): JobEntry => {
    const was = wasName === undefined ? '' : ` (was ${wasName})`;
    const said = is ?? differences.map(differenceText).join('; ');
    return {
      word: kinds.map((k) => WORDS[k]).join(', '),
      text: `${what} ${name}${was}${said ? `: ${said}` : ''}`,
      at: { side: kinds.includes('gone') ? 'before' : 'after', path: [`${what}s`, name] },
    };
  };
  const all: readonly JobSection[] = [
    {
      title: 'Not compared',
      entries: unreadTexts(unread).map(({ text, at, of }) => ({ text, at: { side: at, of } })),
    },
    {
      title: 'Job',
      entries: job.map((d) => ({
        text: differenceText(d),
        at: { side: d.after === undefined ? 'before' : 'after', path: jobPath(d.what) },
      })),
    },
    { title: 'Parts', entries: parts.map((p) => told(p, 'part')) },
    { title: 'Joints', entries: joints.map((j) => told(j, 'joint')) },
    { title: 'Figures', entries: figures.map((f) => ({ text: figureText(f) })) },
    {
      title: 'Findings',
      entries: [
        ...findings.raised.map(
          (f): JobEntry => ({
            word: `new ${f.severity}`,
            text: `${f.rule}: ${f.message}`,
            at: { side: 'after', of: f },
          }),
        ),
        ...findings.cured.map(
          (f): JobEntry => ({
            word: 'cured',
            text: `${f.rule}: ${f.message}`,
            at: { side: 'before', of: f },
          }),
        ),
      ],
    },
  ];
  return all.filter((s) => s.entries.length > 0);
}

/** How many things of the job itself changed, or that none did. */
export function jobVerdict(change: JobChange): string {
  const { same, textDiffers, job, parts, joints, unread, figures, findings } = change;
  const none = unreadVerdict(unread);
  if (none) return none;
  if (same) {
    const own = textDiffers ? 'the same job, written in another way' : 'the same, letter by letter';
    const isMoved = figures.length + findings.raised.length + findings.cured.length > 0;
    return isMoved ? `${own}; what it comes to changed with its parts` : own;
  }
  const n = job.length + parts.length + joints.length;
  return `${n} ${n === 1 ? 'change' : 'changes'}`;
}

export function jobLines(path: string, change: JobChange): readonly string[] {
  const row = ({ word, text }: JobEntry) => (word === undefined ? text : `${word}  ${text}`);
  return [
    `${path}: ${jobVerdict(change)}`,
    ...jobSections(change).flatMap(({ title, entries }) => {
      const isPlain = title === 'Job' || title === 'Parts' || title === 'Joints';
      return isPlain
        ? entries.map((e) => `  ${row(e)}`)
        : [`  ${title.toLowerCase()}`, ...entries.map((e) => `    ${row(e)}`)];
    }),
  ];
}

export function jobMarkdown(path: string, change: JobChange): readonly string[] {
  return [
    `## ${escapeMarkdown(path)}: ${jobVerdict(change)}`,
    '',
    ...jobSections(change).flatMap(({ title, entries }) => [
      `### ${title}`,
      '',
      ...entries.map(({ word, text }) => `- ${word === undefined ? '' : `**${word}** `}${escapeMarkdown(text)}`),
      '',
    ]),
  ];
}
