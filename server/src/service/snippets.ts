/** Whole features to fill in, one for each kind. `$1` and the like are the editor's stops. */

export interface Snippet {
  readonly label: string;
  readonly detail: string;
  readonly text: string;
}

const AT = 'at: { x: ${3:center}, y: ${4:center} }';
const ROWS: readonly (readonly [label: string, detail: string, lines: readonly string[]])[] = [
  [
    'drilled hole',
    'a round hole, drilled or bored',
    ['kind: hole', 'face: ${2:top}', AT, 'diameter: ${5:6}', 'depth: ${6:through}'],
  ],
  [
    'tapped hole',
    'a threaded hole with its tap drill',
    ['kind: hole', 'face: ${2:top}', AT, 'thread: ${5:M5}', 'depth: ${6:14}', 'thread-depth: ${7:10}'],
  ],
  [
    'screw hole',
    'a clearance hole with a counterbore for a screw head, both by the screw',
    ['kind: hole', 'face: ${2:top}', AT, 'clearance: ${5:M5}', 'depth: through', 'counterbore: ${5:M5}'],
  ],
  [
    'pocket',
    'a rectangular pocket with round corners',
    [
      'kind: pocket',
      'face: ${2:top}',
      AT,
      'size: { x: ${5:20}, y: ${6:12} }',
      'corner-radius: ${7:3.5}',
      'depth: ${8:6}',
    ],
  ],
  [
    'slot',
    'a slot between two ends',
    [
      'kind: slot',
      'face: ${2:top}',
      'ends: [{ x: ${3:10}, y: ${4:10} }, { x: ${5:30}, y: ${6:10} }]',
      'width: ${7:6}',
      'depth: ${8:4}',
    ],
  ],
  [
    'step',
    'material taken off along an edge',
    ['kind: step', 'face: ${2:top}', 'along: ${3:front}', 'width: ${4:6}', 'depth: ${5:3}'],
  ],
  [
    'contour',
    'what stays; everything outside it goes',
    [
      'kind: contour',
      'face: ${2:top}',
      'path: [{ x: ${3:0}, y: ${4:0} }, { x: ${5:40}, y: ${6:0}, round: ${7:6} }, { x: ${8:40}, y: ${9:25} }, { x: ${10:0}, y: ${11:25} }]',
      'depth: ${12:through}',
    ],
  ],
  ['chamfer', 'edges broken flat', ['kind: chamfer', 'edges: [${2:top}]', 'size: ${3:0.5}']],
  ['round', 'edges rounded', ['kind: round', 'edges: [${2:top, left}]', 'radius: ${3:2}']],
  [
    'groove',
    'a ring in a face',
    ['kind: groove', 'face: ${2:top}', AT, 'diameter: ${5:20}', 'width: ${6:3}', 'depth: ${7:2}'],
  ],
  [
    'engraving',
    'letters cut into a face',
    ['kind: engraving', 'face: ${2:top}', AT, 'text: ${5:A1}', 'height: ${6:5}', 'depth: ${7:0.3}', 'stroke: ${8:0.5}'],
  ],
  [
    'incline',
    'a sloping plane along an edge',
    ['kind: incline', 'face: ${2:top}', 'along: ${3:front}', 'angle: ${4:30}', 'width: ${5:8}'],
  ],
];

/** Lines after the first stand two blanks in from the feature's name; the editor adds the indentation of the line. */
export const FEATURE_SNIPPETS: readonly Snippet[] = ROWS.map(([label, detail, lines]) => ({
  label: `new ${label}`,
  detail,
  text: [`\${1:${label.replaceAll(' ', '-')}}:`, ...lines.map((line) => `  ${line}`)].join('\n'),
}));
