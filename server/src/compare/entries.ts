/** A comparison as a list of things, in sections: what a Markdown page, a page of its own and the editor's panel say alike. */
import type { Finding } from '../rules/kit/rule';
import type { ComparedPart } from './json';
import { differenceText, featureLine, figureText, todayTexts } from './lines';
import { partPath, setupPath } from './places';
import { touchedLines } from './touches';
import { unreadTexts } from './unread';

/** A path of a text, or a finding's own place. */
export type Place = { readonly side: 'before' | 'after' } & (
  | { readonly path: readonly string[] }
  | { readonly of: Finding }
);

interface Entry {
  /** `moved`, `new error`; absent where the text says all. */
  readonly word?: string;
  readonly text: string;
  /** The features that it is about: as the old text calls them, and as the new one does. */
  readonly before: readonly string[];
  readonly after: readonly string[];
  /** Where it stands: a path of the text, or a finding's own place; in the old text where it is gone from the new one. */
  readonly at?: Place;
}

export interface Section {
  readonly title: 'Not compared' | 'Part' | 'Features' | 'Set-ups' | 'Figures' | 'Findings' | 'Touches';
  readonly entries: readonly Entry[];
}

/** Those that have something in them. */
export function sectionsOf({ change, today, touches = [] }: ComparedPart): readonly Section[] {
  const { part, setups, figures } = change;
  const said = (text: string): Entry => ({ text, before: [], after: [] });
  const of = (title: Section['title'], entries: readonly Entry[]): readonly Section[] =>
    entries.length > 0 ? [{ title, entries }] : [];
  return [
    ...of(
      'Not compared',
      unreadTexts(change.unread).map(({ text, at, of: fault }) => ({ ...said(text), at: { side: at, of: fault } })),
    ),
    ...of(
      'Part',
      part.map((d) => ({ ...said(differenceText(d)), at: placeOf(d, partPath(d.what)) })),
    ),
    ...of('Features', change.features.map(featureEntry)),
    ...of(
      'Set-ups',
      setups.map((d) => ({ ...said(differenceText(d)), at: placeOf(d, setupPath(d.what)) })),
    ),
    ...of(
      'Figures',
      figures.map((f) => said(figureText(f))),
    ),
    ...of('Findings', [...findingEntries(change), ...todayTexts(today).map(said)]),
    ...of('Touches', touchedLines(touches).map(said)),
  ];
}

function featureEntry(f: ComparedPart['change']['features'][number]): Entry {
  const { kinds, name, wasName = name } = f;
  const names = (all: string) => (kinds.includes('rewritten') ? all.split(', ') : [all]);
  const side = kinds.includes('gone') ? 'before' : 'after';
  return {
    ...featureLine(f),
    before: kinds.includes('added') ? [] : names(wasName),
    after: side === 'before' ? [] : names(name),
    at: { side, path: ['features', names(name)[0]!] },
  };
}

function findingEntries({ findings }: ComparedPart['change']): readonly Entry[] {
  const { raised, cured, kept, accepted, takenBack } = findings;
  const plain = (text: string): Entry => ({ text, before: [], after: [] });
  const told = (a: (typeof accepted)[number]) => `${a.rule}${a.of ? ` of ${a.of}` : ''}`;
  return [
    ...raised.map(
      (f): Entry => ({
        word: `new ${f.severity}`,
        text: `${f.rule}: ${f.message}`,
        before: [],
        after: f.of,
        at: { side: 'after', of: f },
      }),
    ),
    ...cured.map(
      (f): Entry => ({
        word: 'cured',
        text: `${f.rule}: ${f.message}`,
        before: f.of,
        after: [],
        at: { side: 'before', of: f },
      }),
    ),
    ...(kept.length > 0 && raised.length + cured.length > 0 ? [plain(`${kept.length} as before`)] : []),
    ...accepted.map((a) => plain(`accepts ${told(a)}: ${a.because ?? 'no reason given'}`)),
    ...takenBack.map((a) => plain(`no longer accepts ${told(a)}`)),
  ];
}

function placeOf({ after }: { readonly after?: string }, path: readonly string[]): Place {
  return { side: after === undefined ? 'before' : 'after', path };
}
