/**
 * A part as STEP: the exact solid by application protocol 242 (ISO 10303-242), its name, revision and title as the
 * product's, and its material and tolerances as properties of it. Dimensions with tolerances are said in words: they are not tied
 * to faces.
 */

import { materialOf } from '../model/material-of';
import type { Part } from '../model/model';
import { ROUNDING } from '../tolerance';
import type { ExactMeasures } from './exact/measures';
import type { Cuttings } from './exact/solid';
import { entityOf, quoted, real, withEntities } from './part21';
import { statedRequirements, statedTolerances } from './stated';
import { ExportError, type Exported, type ExportRequest, type Writer } from './writer';

/** Makes exact solids; on Node a thread of its own. */
export interface ExactMaker {
  /** STEP text as the kernel writes it, and what it measured. Rejects with one clear message. */
  step(cuttings: Cuttings): Promise<{ readonly text: string; readonly measures: ExactMeasures }>;
}

/** Of the volume: what two ways of working it out may differ by, and by what no file is written any more. */
const ROUNDED = 1e-6;
const MOST_APART = 1e-4;

export function stepWriter(maker: ExactMaker): Writer {
  return {
    extensions: ['.step', '.stp'],
    title: 'STEP AP242: exact solid for modelling and machining programs',
    async write(request): Promise<Exported> {
      const { body, voids, measures: own } = request.checked.solid;
      const expected = { volumeMm3: own.volumeMm3, exact: own.exact };
      const made = await maker.step({ body, voids, expected }).catch((error: unknown) => {
        throw new ExportError(error instanceof Error ? error.message : String(error));
      });
      const { measures } = made;
      const notes: string[] = [];
      if (measures.solids > 1) notes.push(`the part is in ${measures.solids} pieces; each is a solid of its own.`);
      const apart = Math.abs(measures.volumeMm3 - own.volumeMm3) / Math.max(own.volumeMm3, ROUNDING);
      if (own.exact && apart > ROUNDED) {
        const told = `its volume, ${measures.volumeMm3.toFixed(3)} mm³, is not the one the check shows, ${own.volumeMm3.toFixed(3)} mm³`;
        // A file that lacks a feature is worse than none.
        if (apart > MOST_APART)
          throw new ExportError(
            `The exact solid came out wrong and was not written: ${told}. Please report this part.`,
          );
        notes.push(`${told}: please report this part.`);
      }
      return { bytes: new TextEncoder().encode(finished(made.text, request)), notes };
    },
  };
}

/** The kernel's file, made the part's own. */
export function finished(text: string, request: ExportRequest): string {
  const { part } = request.checked;
  const named = withProduct(withHeader(text, request), part);
  const product = entityOf(named, 'PRODUCT_DEFINITION');
  // in the kernel's own text: a name in the finished one could look the same
  const context = /REPRESENTATION\s*\(\s*'[^']*'\s*,\s*\([^)]*\)\s*,\s*(#\d+)\s*\)/.exec(text)?.[1];
  if (!product || !context) return named;
  return withEntities(named, (add) => {
    const property = (title: string, name: string, items: readonly string[]) => {
      const of = add(`PROPERTY_DEFINITION(${quoted(title)},${quoted(name)},${product.id})`);
      const all = add(`REPRESENTATION(${quoted(name)},(${items.join(',')}),${context})`);
      add(`PROPERTY_DEFINITION_REPRESENTATION(${of},${all})`);
    };
    const words = (name: string, text: string) =>
      add(`DESCRIPTIVE_REPRESENTATION_ITEM(${quoted(name)},${quoted(text)})`);
    if (part.material) {
      property('material property', 'material name', [words('material', part.material.name)]);
      const density = materialOf(part)?.densityGPerCm3;
      if (density !== undefined) property('material property', 'density', [densityItem(add, density)]);
    }
    if (part.tolerance) property('general tolerance', 'general tolerance', [words('standard', part.tolerance.name)]);
    const stated = statedTolerances(part);
    if (stated.length > 0)
      property(
        'stated tolerances',
        'stated tolerances',
        stated.map(({ of, says }) => words(of, says)),
      );
    const asked = statedRequirements(part);
    if (asked.length > 0)
      property(
        'stated requirements',
        'stated requirements',
        asked.map(({ of, says }) => words(of, says)),
      );
  });
}

/** g/cm³ */
function densityItem(add: (text: string) => string, density: number): string {
  const gram = add('( MASS_UNIT() NAMED_UNIT(*) SI_UNIT($,.GRAM.) )');
  const centimetre = add('( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT(.CENTI.,.METRE.) )');
  const [mass, volume] = [add(`DERIVED_UNIT_ELEMENT(${gram},1.)`), add(`DERIVED_UNIT_ELEMENT(${centimetre},-3.)`)];
  const unit = add(`DERIVED_UNIT((${mass},${volume}))`);
  return add(`MEASURE_REPRESENTATION_ITEM('density measure',POSITIVE_RATIO_MEASURE(${real(density)}),${unit})`);
}

/** FILE_NAME: name, time, author, organization, preprocessor, originating system, authorisation (ISO 10303-21, 8.2.3). */
function withHeader(text: string, { checked, creator, when }: ExportRequest): string {
  const end = text.indexOf('ENDSEC;');
  const schema = /FILE_SCHEMA\s*\([\s\S]*?\);/.exec(text)?.[0] ?? '';
  const { part } = checked;
  const head = [
    'ISO-10303-21;',
    'HEADER;',
    `FILE_DESCRIPTION((${quoted(part.title ?? part.name)}),'2;1');`,
    `FILE_NAME(${quoted(`${part.name}.step`)},'${when.toISOString().slice(0, 19)}',(''),(''),${quoted(creator)},${quoted(creator)},'');`,
    schema.replaceAll(/\s+/g, ' ').replaceAll('( ', '(').replaceAll(' )', ')'),
    '',
  ];
  return head.join('\n') + text.slice(end);
}

/** PRODUCT: id, name, description; and its revision (ISO 10303-41). */
function withProduct(text: string, part: Part): string {
  const product = entityOf(text, 'PRODUCT');
  const version = entityOf(text, 'PRODUCT_DEFINITION_FORMATION');
  if (!product || !version) return text;
  const context = /\(\s*#\d+\s*\)\s*\)\s*;$/.exec(text.slice(product.start, product.end))?.[0] ?? '());';
  const swaps = [
    {
      ...product,
      to: `${product.id} = PRODUCT(${quoted(part.name)},${quoted(part.name)},${quoted(part.title ?? '')},${context}`,
    },
    {
      ...version,
      to: `${version.id} = PRODUCT_DEFINITION_FORMATION(${quoted(part.revision ?? '')},'',${product.id});`,
    },
  ];
  return swaps
    .sort((a, b) => b.start - a.start)
    .reduce((file, { start, end, to }) => file.slice(0, start) + to + file.slice(end), text);
}
