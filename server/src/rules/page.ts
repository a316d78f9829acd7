/** A rule's page in Markdown: what the rules' pages and the hover say alike. `scribeline why` prints the page. */
import { firstRule } from '../text/renamed';
import { lines as shownLines } from '../text/shown';
import { figuresOf } from './fact-words';
import { partsOf, sidesOf } from './kit/parts';
import type { Finding, Limit, Rule } from './kit/rule';

/** `schemas/rules/wall/thin.md`, below the repository's root. */
export function pagePath(rule: Rule): string {
  return `schemas/rules/${rule.name}.md`;
}

/** The whole page. `example` is what is found in its bad example: the page works it out with these numbers. */
export function rulePage(rule: Rule, example?: Finding): string {
  return [
    `# ${rule.name}`,
    '',
    severityLine(rule),
    ...formerText(rule),
    '',
    '## Why',
    '',
    rule.why,
    '',
    '## How it is worked out',
    '',
    ...(rule.formula ? [rule.formula, ''] : []),
    ...(example ? [...workedText(example), ''] : []),
    '## Limits',
    '',
    ...(rule.limits.length > 0 ? [...limitTable(rule), '', settingText(rule)] : [unlimitedText(rule)]),
    ...(rule.bad ? ['', '## Reported for', '', fenced(rule.bad)] : []),
    ...(rule.shop ? ['', 'in this shop:', '', fenced(rule.shop)] : []),
    '',
    ...(rule.good ? ['## Not reported for', '', fenced(rule.good)] : []),
    '',
    '## What to change',
    '',
    ...changeText(rule, example),
    '',
    acceptText(rule),
    '',
  ].join('\n');
}

/** What the example is told, in the words of the report, and its numbers. */
function workedText(example: Finding): readonly string[] {
  const { says } = partsOf(example);
  const sides = sidesOf(example);
  const numbers = numbersText(example);
  return [
    'In the example below:',
    '',
    `> ${says}`,
    ...(sides.length > 0 ? ['', `It ${sides.join(' and ')}.`] : []),
    ...(numbers ? ['', `Its numbers: ${numbers}.`] : []),
  ];
}

/** The numbers behind a finding in one line, each by its name; empty where it has none. */
export function numbersText(finding: Finding): string {
  return sourceText(figuresOf(finding).join(', '));
}

function unlimitedText({ bounds }: Rule): string {
  return `It has no number to set. The limit is given by:\n\n- ${bounds ?? 'The format (`schemas/FORMAT.md`).'}`;
}

function changeText({ mends, mend }: Rule, example?: Finding): readonly string[] {
  const { change } = example ? partsOf(example) : {};
  const fixes = mends ?? (mend ? 'A fix is offered where one was tested on the text.' : undefined);
  return [
    ...(change === undefined ? [] : ['In the example:', '', `> ${change}`, '']),
    fixes ?? 'No fix is offered: change it by hand.',
  ];
}

/** The rule table: a section for each topic, a row for each rule. `to` makes a rule's link. */
export function ruleTable(
  rules: readonly Rule[],
  topics: ReadonlyMap<string, string>,
  to: (rule: Rule) => string,
): string {
  const lines: string[] = [];
  const present = [...new Set(rules.map((r) => topicOf(r)))];
  for (const topic of present) {
    const about = topics.get(topic);
    lines.push(
      `### ${topic}${about ? `: ${about}` : ''}`,
      '',
      '| rule | severity | what it reports | fix |',
      '| --- | --- | --- | --- |',
    );
    for (const rule of rules.filter((r) => topicOf(r) === topic)) {
      lines.push(
        `| [${rule.name}](${to(rule)}) | ${rule.severity} | ${cell(rule.summary)} | ${rule.mend || rule.mends ? 'yes' : ''} |`,
      );
    }
    lines.push('');
  }
  return lines.join('\n');
}

export function topicOf(rule: Rule): string {
  return rule.name.slice(0, rule.name.indexOf('/'));
}

/** Which unit the number of a limit is written in. */
const UNIT_TEXT: Readonly<Record<Limit['unit'], string>> = {
  mm: 'mm',
  deg: '°',
  ratio: '×',
  percent: '%',
  count: '',
  um: 'µm',
  mpa: 'N/mm²',
  min: 'min',
};

/** `metal 0.8 mm`: a limit with its value, as a hover shows it. */
export function limitText({ name, value, unit }: Pick<Limit, 'name' | 'value' | 'unit'>): string {
  return `${name} ${valueOfLimit(value, unit)}`;
}

/** `0.8 mm`, `8 ×`, `400`. */
export const valueOfLimit = (value: number, unit: Limit['unit']) =>
  unit === 'deg' ? `${value}°` : `${value} ${UNIT_TEXT[unit]}`.trim();

function limitTable(rule: Rule): readonly string[] {
  return [
    '| limit | default | what | source |',
    '| --- | --- | --- | --- |',
    ...rule.limits.map(
      (l) => `| \`${l.name}\` | ${valueOfLimit(l.value, l.unit)} | ${cell(l.what)} | ${cell(sourceText(l.source))} |`,
    ),
  ];
}

function settingText(rule: Rule): string {
  const shown = rule.limits.map((l) => `${l.name}: ${l.value}`).join(', ');
  return `A shop sets its own in its shop file:\n\n${fenced(`limits:\n  ${rule.name}: { ${shown} }\n`)}`;
}

function acceptText(rule: Rule): string {
  if (rule.bad.startsWith('record:')) return 'It is about a record, which has nothing to accept.';
  if (rule.when === 'job') return 'It is about a whole job, which has nothing to accept: change the job or its parts.';
  if (rule.when === 'read' || rule.when === 'last') return 'It cannot be accepted: the text has to be corrected.';
  return `To accept it, write so in the part file, and why:\n\n${fenced(`accept:\n  - { rule: ${rule.name}, of: FEATURE, because: … }\n`)}`;
}

/** The first line below a rule's name, on its page and in a hover. */
export function severityLine({ severity, summary }: Rule): string {
  return `**${severity}** – ${summary}`;
}

function formerText({ name }: Rule): readonly string[] {
  const first = firstRule(name);
  return first === name ? [] : ['', `It was called ${first}; that name is still read.`];
}

const fenced = (yaml: string) => `\`\`\`yaml\n${shownLines(yaml.trimEnd())}\n\`\`\``;
const cell = (text: string) => text.replaceAll('|', '\\|').replaceAll('\n', ' ');

/** What has no source is called by one name wherever it is read; README says what is meant. */
export function sourceText(source: string): string {
  return source
    .replace(/\bcommon practice, no source\b/g, 'rule of thumb')
    .replace(/\bcommon practice\b/g, 'rule of thumb');
}
