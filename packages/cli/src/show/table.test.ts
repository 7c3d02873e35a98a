import { describe, expect, it } from 'vitest';
import { displayWidth } from './display-width.js';
import { formatTable, type TableColumn } from './index.js';

const columns: readonly TableColumn[] = [
  { heading: 'family', align: 'left' },
  { heading: 'area', unit: 'mm2', align: 'right' },
  { heading: 'area / reference', align: 'right' },
  { heading: 'least edge radius', unit: 'mm', align: 'right' },
];
const rows = [
  ['spline', '1.402', '7.14', '0.121'],
  ['ellipse', '10.196', undefined, '0.25'],
];

const linesOf = (width: number) => formatTable(columns, rows, { width, keys: 1 }).split('\n');

describe('a table', () => {
  it('has headings above units above numbers that end in one column', () => {
    expect(linesOf(80)).toEqual([
      '                             least',
      '                    area /    edge',
      'family     area  reference  radius',
      '          [mm2]               [mm]',
      '-------  ------  ---------  ------',
      'spline    1.402       7.14   0.121',
      'ellipse  10.196          -    0.25',
      '',
    ]);
  });

  it.each([80, 40, 25])('keeps within %d columns and loses no cell', (width) => {
    const text = linesOf(width);
    for (const line of text) expect(displayWidth(line)).toBeLessThanOrEqual(width);
    for (const cell of rows.flat()) if (cell !== undefined) expect(text.join('\n')).toContain(cell);
  });

  it('repeats the key columns in every block', () => {
    const text = linesOf(20).join('\n');
    expect(text.match(/^spline/gm)).toHaveLength(text.split('\n\n').length);
    expect(text.split('\n\n').length).toBeGreaterThan(1);
  });

  it('counts two columns for an East Asian character', () => {
    const [, , first, second] = formatTable(
      [
        { heading: 'case', align: 'left' },
        { heading: 'n', align: 'right' },
      ],
      [
        ['引張', '1'],
        ['pull', '2'],
      ],
      { width: 80, keys: 1 },
    ).split('\n');
    expect(displayWidth(first!)).toBe(displayWidth(second!));
  });
});
