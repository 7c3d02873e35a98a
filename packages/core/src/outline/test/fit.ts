import { Matrix, solve } from 'ml-matrix';
import type { Border, OutlineFamily } from '../family.js';
import { createCurveNodes } from '../nodes.js';

/**
 * Parameters whose outline comes closest to the border of a target (least squares of the distances at 256 nodes), by the
 * Levenberg-Marquardt method within the family's bounds.
 */
export function fitToBorder(family: OutlineFamily, target: Border, start: readonly number[]): number[] {
  const nodes = createCurveNodes(256);
  const distances = (values: readonly number[]) => {
    family.place(values, nodes);
    return Array.from(nodes.x, (x, j) => target.distance(x, nodes.y[j]!));
  };
  const sum = (residuals: readonly number[]) => residuals.reduce((total, r) => total + r * r, 0);
  const steps = family.parameters.map(({ lower, upper }) => (upper - lower) / 10);
  let values = [...start];
  let residuals = distances(values);
  let damping = 1e-2;
  for (let iteration = 0; iteration < 60; iteration++) {
    const jacobian = Matrix.zeros(residuals.length, values.length);
    values.forEach((value, i) => {
      const moved = distances(values.with(i, value + 1e-5 * steps[i]!));
      for (let j = 0; j < residuals.length; j++) jacobian.set(j, i, (moved[j]! - residuals[j]!) / 1e-5);
    });
    const transposed = jacobian.transpose();
    const normal = transposed.mmul(jacobian);
    const gradient = transposed.mmul(Matrix.columnVector(residuals));
    for (let attempt = 0; attempt < 8; attempt++) {
      const damped = normal.clone();
      for (let i = 0; i < values.length; i++) damped.set(i, i, damped.get(i, i) * (1 + damping) + 1e-9);
      const change = solve(damped, gradient);
      const next = values.map((value, i) => {
        const { lower, upper } = family.parameters[i]!;
        return Math.min(upper, Math.max(lower, value - change.get(i, 0) * steps[i]!));
      });
      const nextResiduals = distances(next);
      if (sum(nextResiduals) < sum(residuals)) {
        values = next;
        residuals = nextResiduals;
        damping *= 0.3;
        break;
      }
      damping *= 4;
    }
  }
  return values;
}
