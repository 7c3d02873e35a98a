import { addField, halfSize, writeAnswer } from '../edge/index.js';
import type { ReducedModel } from '../host/index.js';
import { byCount } from '../outline/index.js';
import { type ActingLoad, distanceToEdges, type SolvedEdge } from '../stress/index.js';
import { createFillerField, type FillerField, type PlaneStress } from './filler-field.js';

/** Stress in the filler around a solved channel, of all loads. */
export interface ChannelStress {
  /** Takes one solved outline; it must stay as it is until the last `at`. */
  take(edge: SolvedEdge): void;
  /** Stresses (MPa) of every load at a place (mm) off the edge, overwritten by the next call. The first call for an outline is the costly one. */
  at(x: number, y: number): readonly PlaneStress[];
  /** Distance of a place from the edge, between nodes too, mm; of several channels, from the nearest one. */
  distance(x: number, y: number): number;
}

export function createChannelStress(model: ReducedModel, loads: readonly ActingLoad[]): ChannelStress {
  const { basis } = model;
  const half = halfSize(basis.degree);
  const fieldOf = byCount((count) => createFillerField(basis, count, loads.length));
  const coefficients = loads.map(() => new Float64Array(2 * half));
  const answer = new Float64Array(2 * half);
  const found: PlaneStress[] = loads.map(() => ({ xx: 0, yy: 0, xy: 0 }));
  const signs = loads.map(({ symmetric }) => (symmetric ? 1 : -1));
  let made = false;
  let field: FillerField;
  let edge: SolvedEdge;

  const make = (): void => {
    const { mirror } = edge;
    for (let l = 0; l < loads.length; l++) {
      const { undisturbed, response } = loads[l]!;
      const whole = coefficients[l]!;
      whole.set(undisturbed);
      if (response === undefined) continue;
      const moments = edge.moments[l]!;
      writeAnswer(response, half, mirror ? 'half' : 'whole', moments, answer);
      for (let i = 0; i < (mirror ? half : 2 * half); i++) whole[i]! += answer[i]!;
      if (response.axial !== undefined) addField(response.axial, edge.strains[l]!, whole);
    }
    field = fieldOf(edge.nodes.count);
    field.take(edge.each, coefficients, edge.several ? signs : undefined);
    made = true;
  };

  return {
    take(solved) {
      edge = solved;
      made = false;
    },
    at(x, y) {
      if (!made) make();
      field.stressAt(x, y, found);
      for (let l = 0; l < loads.length; l++) {
        const { offset } = loads[l]!;
        found[l]!.xx += offset;
        found[l]!.yy += offset;
      }
      return found;
    },
    distance: (x, y) => distanceToEdges(edge, x, y),
  };
}
