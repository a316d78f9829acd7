/**
 * How what users read is written: lengths, figures, terms, and a command for what to change. One word has one meaning, and
 * the words on the left of `TERMS` are not used for it.
 */
import { partsOf } from '../../../server/src/rules/kit/parts';
import type { Finding, Rule } from '../../../server/src/rules/kit/rule';

const MOST_WORDS = 40;
const MOST_IN_A_SENTENCE = 20;

/** What is not written, and what is written for it. */
const TERMS: readonly (readonly [not: RegExp, use: string])[] = [
  [/\bthe works?\b(?!shop|piece| of\b)/i, 'the workpiece'],
  [/\benvelope\b/i, 'body'],
  [/\bdrawn face|as it came\b/i, 'face as supplied'],
  [/\bleans?\b|\bleaning\b(?!`)/i, 'is sloped, or is tilted'],
  [/\b(mm|in|drilled|it|part|\d) across\b|\bacross it\b/i, 'diameter, width or thickness'],
  [/\bstands? out\b/i, 'stick-out'],
  [/\blaying-down\b|\bturn(ed|ing)? over\b/i, 'set-up'],
  [/\bclamped height\b|\b[Hh]old it by\b/, 'grip'],
  [/\btakes? [xyz]\b|\btakes? its height\b|\bfound again\b/i, 'set zero on, locate'],
  [/\bbed of the vise\b/i, 'vise bed'],
  [/\btakes? (it |them )?(along|away)\b|\b(goes|milled) into chips\b/i, 'cut away'],
  [/\b[Rr]emove (this|the|one|it)\b|\b[Ll]eave (it|one|the second|this) (out|off)\b/, 'delete'],
  [/\bof room\b|\bto either side\b/i, 'a tolerance of ±'],
  [/\bon hand\b|\bto be had\b|\bon the rack\b/i, 'in the shop'],
  [/\bjudg(e|es|ed|ing)\b|\brais(e|es|ed) by\b/i, 'check, report'],
  [/\bmend(s|ed|ing)?\b|\bcures?\b|\bcured\b|\bwould do\b/i, 'fix, change'],
  [/\bspares?\b(?! part)|\bdear(er)?\b/i, 'saves; expensive'],
  [/\bcommon practice, no source\b/i, 'rule of thumb'],
  [/\bleast wall\b|\brev\/min\b/i, 'thinnest wall; rpm'],
  [/\bperhaps\b|\bmostly\b|\bhardly\b/i, 'nothing, or Did you mean'],
  [/\bsings?\b|\bpatience\b|\bnobody\b|\bit walks\b|\bdrums\b/i, 'vibrates, wanders, breaks'],
  [/\bwants?\b|\bserves\b/i, 'needs'],
];

function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.!?][)"]?)\s+(?=["'(]?[A-Z0-9])/);
}

/** Which of the rules of writing a text breaks, each by name with the place. */
export function faultsOfText(text: string): readonly string[] {
  const prose = text.replace(/`[^`]*`/g, 'X');
  const long = sentencesOf(prose).filter((s) => wordsOf(s) > MOST_IN_A_SENTENCE);
  return [
    ...long.map((s) => `sentence: ${wordsOf(s)} words: ${s}`),
    ...TERMS.flatMap(([not, use]) => (not.test(prose) ? [`term: '${not.exec(prose)![0]}', use ${use}: ${text}`] : [])),
  ];
}

/** Words as a reader counts them: a value with its unit is one. */
function wordsOf(text: string): number {
  const joined = text.replace(/([\d.]) (mm|in|%|°|rpm|min|kN|N|W|g|kg|µm|cm³|mm²|mm³|h|EUR)\b/g, '$1$2');
  return joined.split(/\s+/).filter((w) => /[\p{L}\p{N}]/u.test(w)).length;
}

/** More digits than a workshop sets: three decimals in mm. Fine in the statement of a tolerance, noise in advice. */
const NOISE = /\d\.\d{3,}(?= mm\b)/;

/** What the author called it is the author's affair. */
const withoutParameter = (text: string) => text.replace(/(?<=the parameter )[\w-]+/, 'x');

export function faultsOfFinding(finding: Finding): readonly string[] {
  const names = finding.of.map((name) => name.replace(/\[.*/, ''));
  const message = names.reduce((text, name) => text.replaceAll(name, 'x'), withoutParameter(finding.message));
  const { change = '', says } = partsOf({ ...finding, message });
  return [
    ...faultsOfText(message),
    ...(wordsOf(message) > MOST_WORDS ? [`words: ${wordsOf(message)}: ${message}`] : []),
    ...(NOISE.test(change) || /[1-9]\d*\.\d{3,} mm\b/.test(says) ? [`figure: ${message}`] : []),
    ...(change === '' && finding.severity !== 'hint' ? [`command: ${message}`] : []),
    ...(says === '' ? [`thing: ${message}`] : []),
    ...(/^(It|What|Where|This is|Of)\b/.test(message) ? [`start: ${message}`] : []),
    ...(finding.of.some((name) => message.includes(`\`${name}\``)) ? [`backquotes: ${message}`] : []),
  ];
}

export function faultsOfTitle(written: string): readonly string[] {
  const title = withoutParameter(written);
  return [
    ...faultsOfText(title),
    ...(partsOf({ message: title }).says === '' ? [] : [`command: fix: ${title}`]),
    ...(NOISE.test(title) ? [`figure: fix: ${title}`] : []),
  ];
}

/** Of what a rule's page says: its summary, why, formula, limits and fixes. */
export function faultsOfPage({ summary, why, formula = '', mends = '', bounds = '', limits }: Rule): readonly string[] {
  const texts = [summary, why, formula, mends, bounds, ...limits.map((l) => l.what)];
  return texts.flatMap((text) => faultsOfText(text).map((f) => `page ${f}`));
}

/** Seven and more things in a row, which nobody reads. */
const MANY = /(?:(?:`[^`]*`|\b[\w-]+), ){6}/;
/** Where nothing is to be written there is nothing to show. */
const NO_EXAMPLE = /^(?:Delete|Rename|Check|Split|Move|Indent|Close|Use|Make|Correct|Did you mean|Keep|Replace|Give)\b/;

/** Of what is told while a text is read: besides the rest it shows how to write what is meant. */
export function faultsOfReading(finding: Finding): readonly string[] {
  const { message, thing } = finding;
  const { change = '', says } = partsOf(finding);
  const name = thing?.replace(/^(?:angle plate|\S+) /, '');
  return [
    ...faultsOfText(name ? message.replaceAll(name, 'x') : message),
    ...(wordsOf(message) > MOST_WORDS ? [`words: ${wordsOf(message)}: ${message}`] : []),
    ...(change === '' ? [`command: ${message}`] : []),
    ...(says === '' ? [`thing: ${message}`] : []),
    ...(name !== undefined && !message.includes(name) ? [`name: ${message}`] : []),
    ...(MANY.test(message) ? [`many: ${message}`] : []),
    ...(change !== '' && !change.includes('`') && !NO_EXAMPLE.test(change) ? [`example: ${message}`] : []),
  ];
}
