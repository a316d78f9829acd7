/**
 * The second source of each table: one that is independent of what its rows were written from. How many rows it covers is
 * counted by `tests/tables/second`, which compares them one by one. A table without one is not in the list.
 */
import type { SecondSource } from './source';

export const SECOND: Readonly<Record<string, SecondSource>> = {
  threads: {
    source: 'ISO 965-1 by its formulas: limits of the minor diameter, which the tap drill lies in',
    rows: 150,
  },
  'clearance-holes': { source: 'DIN 74-1, hole d1, a public table', rows: 13 },
  'screw-heads': { source: 'a university’s page of metric screws', rows: 13 },
  hexagons: { source: 'two public tables, of ISO 4017 and of ISO 4032', rows: 14 },
  washers: { source: 'public tables of ISO 7089', rows: 15 },
  bearings: { source: 'a public table of usual bearings', rows: 10 },
  'iso-286-grades': { source: 'the multiples of the tolerance unit i of ISO 286-1', rows: 182 },
  'iso-286-shafts': { source: 'the formulas of ISO 286-1, annex A', rows: 560 },
  'iso-286-delta': { source: 'what a grade is wider than the next finer one, by the formulas of ISO 286-1', rows: 13 },
  'inch-fits': { source: 'public tables of RC1, RC2 and LC6 to LC11; of FN the handbook’s 27th edition', rows: 107 },
  'general-tolerances': { source: 'a library of tolerances, github.com/rf-ghofmockel/rf-tolerance', rows: 44 },
};
