/** Another unit that a number may have been given in: times `factor` it is in the unit asked for. */
export interface Reading {
  readonly unit: string;
  readonly factor: number;
}

/** For each unit of a brief, what is written in its place by mistake. */
const readings: Readonly<Record<string, readonly Reading[]>> = {
  mm: [
    { unit: 'm', factor: 1000 },
    { unit: 'micrometres', factor: 1e-3 },
  ],
  MPa: [
    { unit: 'GPa', factor: 1000 },
    { unit: 'bar', factor: 0.1 },
    { unit: 'kPa', factor: 1e-3 },
    { unit: 'Pa', factor: 1e-6 },
  ],
  'N/mm': [
    { unit: 'kN/mm', factor: 1000 },
    { unit: 'N/m', factor: 1e-3 },
  ],
  'N mm/mm': [
    { unit: 'N m/mm', factor: 1000 },
    { unit: 'N mm/m', factor: 1e-3 },
  ],
  '1': [
    { unit: 'percent', factor: 0.01 },
    { unit: 'millionths', factor: 1e-6 },
  ],
  '1/K': [{ unit: '1e-6/K', factor: 1e-6 }],
  s: [
    { unit: 'min', factor: 60 },
    { unit: 'h', factor: 3600 },
  ],
  'mPa s': [{ unit: 'Pa s', factor: 1000 }],
  'mN/m': [{ unit: 'N/m', factor: 1000 }],
  'kg/m3': [{ unit: 'g/cm3', factor: 1000 }],
  'J/(kg K)': [{ unit: 'kJ/(kg K)', factor: 1000 }],
};

/** Units in which a number could have been meant, those that bring it within `fits`. */
export function readingsOf(value: number, unit: string, fits: (value: number) => boolean): readonly Reading[] {
  return (readings[unit] ?? []).filter(({ factor }) => fits(value * factor));
}

/** A number that was converted, without the digits that only rounding gave it. */
export const rounded = (value: number) => String(Number(value.toPrecision(6)));
