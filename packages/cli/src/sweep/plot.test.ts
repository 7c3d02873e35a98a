import { describe, expect, it } from 'vitest';
import type { CaseFigures } from './figures.js';
import { sweepPlot } from './plot.js';

const picked = (vary: CaseFigures['vary'], area?: number): CaseFigures => ({
  case: 'x',
  status: area === undefined ? 'unmet' : 'done',
  vary,
  front: [],
  ...(area === undefined
    ? { error: 'no channel' }
    : { design: { family: 'ellipse', area, conductance: area ** 2 / 20, peak: 30, wall: 0.2, minEdgeRadius: 0.2 } }),
});

describe('the plot of picks', () => {
  it('goes along the first numbers, with a series for each combination of the rest', () => {
    const plot = sweepPlot('Joint', 'pick', { 'host.bendRadius': 'mm' }, [
      picked({ 'host.support': 'clamped', 'host.bendRadius': 6 }, 3),
      picked({ 'host.support': 'clamped', 'host.bendRadius': 5 }, 2),
      picked({ 'host.support': 'simple', 'host.bendRadius': 6 }, 1),
      picked({ 'host.support': 'simple', 'host.bendRadius': 5 }),
    ]);
    expect(plot).toMatchObject({
      x: { title: 'host.bendRadius, mm' },
      series: [
        {
          label: 'support clamped',
          points: [
            { x: 5, y: 2 },
            { x: 6, y: 3 },
          ],
        },
        { label: 'support simple', points: [{ x: 6, y: 1 }] },
      ],
      joined: true,
      missing: { places: [5] },
    });
    expect(plot.x.words).toBeUndefined();
  });

  it('shows any figure along any varied value', () => {
    const plot = sweepPlot(
      'Joint',
      'pick',
      { allow: 'MPa' },
      [
        picked({ 'host.bendRadius': 6, allow: 30 }, 3),
        { ...picked({ 'host.bendRadius': 6, allow: 5 }), leastPeak: 21 },
      ],
      { figure: 'least-peak', over: 'allow' },
    );
    expect(plot).toMatchObject({
      x: { title: 'allow, MPa' },
      y: { title: 'least peak found, MPa' },
      series: [{ points: [{ x: 5, y: 21 }] }],
      missing: { places: [30] },
    });
  });

  it('goes along words where there are no numbers, and joins nothing', () => {
    const plot = sweepPlot('Joint', 'pick', {}, [picked({ layup: [0, 90] }, 3), picked({ layup: 'smeared' }, 2)]);
    expect(plot).toMatchObject({ x: { title: 'layup', words: ['[0,90]', 'smeared'] }, joined: false });
    expect(plot.series).toEqual([
      {
        points: [
          { x: '[0,90]', y: 3 },
          { x: 'smeared', y: 2 },
        ],
      },
    ]);
  });
});

describe('the plot of fronts', () => {
  it('shows each front as a series, and none that failed', () => {
    const front = [
      { size: 1, against: 20 },
      { size: 2, against: 30 },
    ];
    const plot = sweepPlot('Joint', 'front', {}, [
      { case: 'x', status: 'done', vary: { 'search.seed': 1, allow: 30 }, front },
      picked({ 'search.seed': 2, allow: 30 }),
    ]);
    expect(plot.series).toEqual([
      {
        label: 'seed 1, allow 30',
        points: [
          { x: 1, y: 20 },
          { x: 2, y: 30 },
        ],
      },
    ]);
    expect(plot).toMatchObject({
      x: { title: 'channel area, mm²' },
      y: { title: 'peak edge stress, worst case, MPa' },
    });
  });

  it('names what the fronts trade, all of it where they differ', () => {
    const of = (objective: CaseFigures['objective']): CaseFigures => ({
      case: 'x',
      status: 'done',
      vary: { 'search.against': objective!.cost },
      objective: objective!,
      front: [{ size: 1, against: 2 }],
    });
    const plot = sweepPlot('Joint', 'front', {}, [
      of({ size: 'area', cost: 'loadFactor' }),
      of({ size: 'area', cost: 'strengthRetained' }),
    ]);
    expect(plot.x.title).toBe('channel area, mm²');
    expect(plot.y.title).toBe('load factor or strength retained, %');
  });
});
