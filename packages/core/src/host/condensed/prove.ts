import { createEdgeSolver, hoopRule } from '../../edge/index.js';
import type { CurveNodes } from '../../outline/index.js';
import type { SolvedHost } from './reduce.js';

/** An outline that asks much of a reduced model. */
export interface Probe {
  readonly name: string;
  readonly mirror: boolean;
  /** mm */
  readonly nodes: CurveNodes;
}

/** Writes an ellipse of half axes a and b, turned by `turn` radians. */
export function drawEllipse(
  [x, y]: readonly [number, number],
  a: number,
  b: number,
  turn: number,
  nodes: CurveNodes,
): void {
  const c = Math.cos(turn);
  const s = Math.sin(turn);
  const write = (j: number, to: { x: Float64Array; y: Float64Array }, u: number, v: number, [px, py] = [0, 0]) => {
    to.x[j] = px + c * u - s * v;
    to.y[j] = py + s * u + c * v;
  };
  for (let j = 0; j < nodes.count; j++) {
    const at = -Math.PI / 2 + ((j + 0.5) * 2 * Math.PI) / nodes.count;
    const u = a * Math.cos(at);
    const v = b * Math.sin(at);
    write(j, nodes, u, v, [x, y]);
    write(j, { x: nodes.dx, y: nodes.dy }, -a * Math.sin(at), b * Math.cos(at));
    write(j, { x: nodes.ddx, y: nodes.ddy }, -u, -v);
  }
}

/** Difference of peaks, as a share of the largest hoop stress, up to which a solution is good enough. */
export const wantedAccuracy = 0.005;

/** Largest difference of the peaks around any probe, as a share of the largest hoop stress around the same edge; NaN where one was not solved. */
export function differenceAround(probes: readonly Probe[], coarse: SolvedHost, fine: SolvedHost): number {
  return largestDifference(hoopAround(probes, coarse), hoopAround(probes, fine));
}

/** Hoop stress at the nodes of every probe under every unit load; loads without mirror symmetry only on probes without. */
function hoopAround(probes: readonly Probe[], { basis, responses, loads: units }: SolvedHost): Float64Array[] {
  const loads = units.map(({ response, ...load }) => ({ ...load, response: responses[response] }));
  return probes.flatMap(({ mirror, nodes }) => {
    const acting = loads.filter(({ symmetric }) => symmetric || !mirror);
    const { phi } = createEdgeSolver(basis, nodes.count, mirror ? 'half' : 'whole', acting.length, 1e-9).solve(
      nodes,
      acting,
    );
    const rule = hoopRule(nodes.count);
    const slope = new Float64Array(2 * nodes.count);
    return acting.map(({ offset }, l) => {
      const hoop = new Float64Array(nodes.count);
      rule.slope(phi[l]!, slope);
      rule.take(nodes, slope, basis.length, offset);
      rule.atNodes(hoop);
      return hoop;
    });
  });
}

/** Unit loads that stress edges by less than this share of the largest one stress them by rounding alone, as a cure does where all is of one material. */
const negligible = 1e-9;

function largestDifference(coarse: readonly Float64Array[], fine: readonly Float64Array[]): number {
  const sizes = fine.map((hoop) => hoop.reduce((most, value) => Math.max(most, Math.abs(value)), 0));
  const floor = negligible * Math.max(...sizes);
  const shares = coarse.map((hoop, n) => {
    const other = fine[n]!;
    return Math.abs(Math.max(...hoop) - Math.max(...other)) / Math.max(sizes[n]!, floor);
  });
  return Math.max(...shares);
}
