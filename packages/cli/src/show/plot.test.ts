import { describe, expect, it } from 'vitest';
import { displayWidth } from './display-width.js';
import { formatPlot, type ScatterPlot, wantsColour } from './index.js';
import { axisTicks } from './ticks.js';

const plot: ScatterPlot = {
  xLabel: 'area [mm2]',
  yLabel: 'peak stress [MPa]',
  series: [
    {
      name: 'ellipse',
      symbol: 'o',
      colour: 31,
      points: Array.from({ length: 9 }, (_, i) => ({ x: i / 3, y: 20 + 10 * i })),
    },
    { name: 'reference', symbol: 'R', points: [{ x: 0.2, y: 90 }] },
  ],
  limit: { name: 'allowed 48 MPa', y: 48 },
};

const draw = (width: number, colour = false, what = plot) => formatPlot(what, { width, height: 15, colour });

describe('a plot', () => {
  it.each([40, 60, 80, 132])('keeps within %d columns', (width) => {
    for (const line of draw(width).split('\n')) expect(displayWidth(line)).toBeLessThanOrEqual(width);
  });

  it('shows every series, the limit, both labels and the legend', () => {
    const text = draw(80);
    for (const part of ['peak stress [MPa]', 'area [mm2]', 'o ellipse', 'R reference', '- - allowed 48 MPa', '- - -'])
      expect(text).toContain(part);
    expect(text.match(/o/g)!.length).toBeGreaterThanOrEqual(9);
  });

  it('puts greater values higher and further right', () => {
    const lines = draw(80).split('\n').slice(1, 16);
    const places = lines.flatMap((line, row) =>
      [...line.matchAll(/o/g)].map((match) => ({ row, column: match.index })),
    );
    for (const [i, place] of places.slice(1).entries()) {
      expect(place.row).toBeGreaterThan(places[i]!.row);
      expect(place.column).toBeLessThan(places[i]!.column);
    }
  });

  it('is the same with colour, codes aside', () => {
    const start = String.fromCharCode(27);
    const coloured = draw(80, true);
    expect(coloured).toContain(`${start}[31mo`);
    expect(coloured.replaceAll(new RegExp(`${start}\\[\\d+m`, 'g'), '')).toBe(draw(80));
  });

  it('leaves out what is not finite, and says so when nothing is left', () => {
    const points = [
      { x: Number.NaN, y: 1 },
      { x: 1, y: Number.POSITIVE_INFINITY },
    ];
    expect(draw(80, false, { ...plot, series: [{ name: 'none', symbol: 'n', points }] })).toBe('nothing to plot\n');
  });

  it('copes with a single point', () => {
    expect(draw(60, false, { ...plot, series: [{ name: 'one', symbol: '1', points: [{ x: 0, y: 0 }] }] })).toContain(
      '1 one',
    );
  });
});

describe('axis ticks', () => {
  it.each([
    [0, 1, 5],
    [17, 23, 5],
    [-3, 900, 6],
    [1e-4, 3e-4, 4],
    [5, 5, 5],
    [0, 0, 5],
    [1e6, 1.00001e6, 5],
  ])('enclose %d to %d in few even steps', (least, most, count) => {
    const { values, labels } = axisTicks(least, most, count);
    expect(values[0]).toBeLessThanOrEqual(least);
    expect(values.at(-1)).toBeGreaterThanOrEqual(most);
    expect(values.length).toBeGreaterThan(1);
    expect(values.length).toBeLessThanOrEqual(2 * count + 2);
    expect(new Set(labels).size).toBe(labels.length);
    const steps = values.slice(1).map((value, i) => value - values[i]!);
    for (const step of steps) expect(step / steps[0]!).toBeCloseTo(1, 6);
  });
});

describe('colour', () => {
  it.each([
    [true, {}, true],
    [false, {}, false],
    [true, { NO_COLOR: '1' }, false],
    [true, { NO_COLOR: '' }, true],
    [true, { TERM: 'dumb' }, false],
  ])('terminal %s and environment %o: %s', (isTTY, environment, wanted) => {
    expect(wantsColour({ isTTY }, environment)).toBe(wanted);
  });
});
