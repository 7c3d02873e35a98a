import type { ChannelObjective } from '@lumenfront/core';
import { costOf, sizeOf } from '@lumenfront/optimizer';
import { describe, expect, it } from 'vitest';
import { axisLabel, axisTitle, costFigure, sizeFigure, withUnit } from './objective.js';

const design = { area: 2, conductance: 0.5, peak: 40, strength: { loadFactor: 1.6, retained: 0.8 } };
const of = (size: ChannelObjective['size'], cost: ChannelObjective['cost']): ChannelObjective => ({ size, cost });

describe('what a front trades', () => {
  it.each([
    [of('area', 'peak'), 2, 40, 40, 'peak [MPa]', '40.0 MPa'],
    [of('conductance', 'loadFactor'), 0.5, 1 / 1.6, 1.6, 'load factor', '1.600'],
    [of('area', 'strengthRetained'), 2, 1 / 0.8, 80, 'strength retained [%]', '80.0 %'],
  ])('%o', (objective, size, cost, shown, label, text) => {
    expect(sizeOf(objective, design)).toBe(size);
    expect(sizeFigure(objective).of(design)).toBe(size);
    expect(costOf(objective, design)).toBe(cost);
    const figure = costFigure(objective);
    expect(figure.of(design)).toBeCloseTo(shown, 12);
    expect(axisLabel(figure)).toBe(label);
    expect(axisTitle(figure)).toBe(label.replace(' [', ', ').replace(']', ''));
    expect(withUnit(figure, figure.of(design))).toBe(text);
    expect(figure.grows).toBe(objective.cost !== 'peak');
  });

  it('is nothing where the joint fails in the cure', () => {
    const failed = { ...design, strength: { loadFactor: 0, retained: 0 } };
    expect(costOf(of('area', 'loadFactor'), failed)).toBe(Number.POSITIVE_INFINITY);
    expect(costFigure(of('area', 'strengthRetained')).of(failed)).toBe(0);
  });
});
