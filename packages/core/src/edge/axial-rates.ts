import { multiply } from '../linear/index.js';
import { type AxialAnswer, type AxialGain, addField, areaRate, axialOf, productWith, writeAxialGain } from './axial.js';
import type { EdgeEquation } from './edge-factors.js';
import type { EdgeLoad } from './edges-solver.js';

/** Rates of the strain along the channel for a batch of motions, one to a motion. */
export interface AxialRates {
  /** Takes motions of edges that were solved under `loads`: velocities of its nodes as `areaRate` reads them, `4 rows` to a motion. */
  take(loads: readonly EdgeLoad[], velocities: Float64Array, howMany: number): void;
  /** Adds to one load's right sides, a row to a motion, what a larger area does to the strain. Before `of`. */
  addFreed(load: number, rights: Float64Array): void;
  /** Of one load, from the rates of its moments. */
  of(load: number, momentRates: Float64Array): Float64Array;
}

/** Of edges whose strains under each load a solver has left. Buffers for up to `room` motions. */
export function createAxialRates(
  { edges, basis, order, fieldCount, fields }: EdgeEquation,
  strains: Float64Array,
  room: number,
): AxialRates {
  const gain: AxialGain = { perStress: 0, perProduct: 0, perArea: 0 };
  const areaRates = new Float64Array(room);
  /** At unchanged moments, and with those that follow the motion. */
  const freed = Array.from(strains, () => new Float64Array(room));
  const rates = Array.from(strains, () => new Float64Array(room));
  /** A unit of strain: its field, and the right side that it gives. */
  const unit = new Float64Array(fieldCount);
  const onEdge = new Float64Array(order);
  let solved: readonly EdgeLoad[] = [];
  let motions = 0;

  const answerOf = (load: number): AxialAnswer | undefined => {
    const axial = axialOf(solved[load]!.response?.axial, edges[0]!.fold);
    if (axial !== undefined) writeAxialGain(axial, edges, basis.length, gain);
    return axial;
  };

  return {
    take(loads, velocities, howMany) {
      solved = loads;
      motions = howMany;
      for (let p = 0; p < howMany; p++) areaRates[p] = areaRate(edges, velocities, 2 * p * order);
    },
    addFreed(load, rights) {
      const own = freed[load]!.fill(0);
      const axial = answerOf(load);
      if (axial === undefined) return;
      addField(axial, 1, unit.fill(0));
      multiply(fields.H, order, fieldCount, unit, onEdge);
      const byArea = gain.perArea * ((solved[load]!.axialStress ?? 0) + axial.modulus * strains[load]!);
      for (let p = 0; p < motions; p++) {
        own[p] = byArea * areaRates[p]!;
        for (let i = 0, at = p * order; i < order; i++, at++) rights[at]! += own[p]! * onEdge[i]!;
      }
    },
    of(load, momentRates) {
      const all = rates[load]!;
      all.set(freed[load]!);
      const axial = answerOf(load);
      if (axial === undefined) return all;
      for (let p = 0; p < motions; p++) all[p]! += gain.perProduct * productWith(axial, momentRates, p * fieldCount);
      return all;
    },
  };
}
