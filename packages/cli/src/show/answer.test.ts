import type { DesignDocument, ResolvedBrief } from '@lumenfront/core';
import { describe, expect, it } from 'vitest';
import { answerOf } from './index.js';

const channel = { wall: 0.2, edgeRadius: 0.25 } as ResolvedBrief['channel'];
const design = (peak: number, loadFactor: number) =>
  ({
    ...{ family: 'ellipse', area: 2, conductance: 1, width: 2, height: 1, wall: 1, minEdgeRadius: 1, cases: {} },
    ...{ peak, worstCase: 'pulled' },
    strength: { loadFactor, worstCase: 'cured', place: 'edge', retained: loadFactor / 3 },
  }) as unknown as DesignDocument;

const told = (own: DesignDocument, reference: DesignDocument) =>
  answerOf({ kind: 'pick', designs: [own], reference, allow: 30, picked: 0 }, { channel }).join('\n');

describe('the answer in words', () => {
  it('says shares of a peak only where the reference is pulled at', () => {
    expect(told(design(20, 2), design(40, 2))).toMatch(/50 % less peak stress \(20\.0 MPa for 40\.0 MPa\)/);
    expect(told(design(20, 2), design(-34, 2))).toMatch(/a higher peak stress \(20\.0 MPa for -34\.0 MPa\)/);
    expect(told(design(-40, 2), design(-34, 2))).toMatch(/a lower peak stress/);
  });

  it('says that a joint breaks in the cure, not that it bears no load', () => {
    const text = told(design(20, 0), design(40, 0));
    expect(text).toMatch(
      /The joint with it breaks in the cure, before any load comes \(case cured\), first at: channel edge\./,
    );
    expect(text).toMatch(/The reference itself breaks in the cure, before any load comes \(case cured\)\./);
    expect(told(design(20, 2), design(40, 0.5))).toMatch(
      /reference itself fails below the loads as given: load factor 0\.50/,
    );
  });
});
