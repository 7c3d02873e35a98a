import { expect, it } from 'vitest';
import { referencePly } from '../../../../../../test/fixtures/tee-reference.js';
import { createCurveNodes, fitPoints } from '../../../outline/index.js';
import { createStressModel, meshedStress } from '../../../stress/index.js';
import { hostOf } from '../../index.js';

/** A slot bent round nearly to a circle of radius 1, `2 half` wide; its ends come as close as `waist`. */
function bentRound(half: number, waist: number): [number, number][] {
  const open = Math.asin((waist / 2 + half) / 1);
  const [long, short] = [160, 24];
  const at = (angle: number, r: number, ahead: number): [number, number] => [
    r * Math.cos(angle) - ahead * Math.sin(angle),
    r * Math.sin(angle) + ahead * Math.cos(angle),
  ];
  const side = (r: number) =>
    Array.from({ length: long + 1 }, (_, i) => at(open + ((2 * Math.PI - 2 * open) * i) / long, r, 0));
  const end = (angle: number, sign: number) =>
    Array.from({ length: short - 1 }, (_, i) => {
      const turn = (Math.PI * (i + 1)) / short;
      return at(angle, 1 + sign * half * Math.cos(turn), sign * half * Math.sin(turn));
    });
  return [...side(1 + half), ...end(-open, 1), ...side(1 - half).reverse(), ...end(open, -1)];
}

it('is meshed round an edge with a narrow waist between two of its parts, as the fast model has it', {
  tags: 'long',
}, () => {
  const joint = { kind: 'plate', material: referencePly } as const;
  const loads = { farField: { sx: 10, sy: 4, txy: 0 } };
  const nodes = createCurveNodes(512);
  fitPoints(bentRound(0.3, 0.2)).place(nodes);
  const model = hostOf(joint).reduce({ wall: 0.05, edgeRadius: 0.05 });
  const { worst } = createStressModel(model, loads, [{ name: 'pulled', factors: { farField: 1 } }]).evaluate(
    nodes,
    false,
  );
  const { peak } = meshedStress(joint, loads, [], nodes, { coarseness: 2 }).loads.farField!;
  expect(Math.abs(worst / peak - 1)).toBeLessThan(0.005);
});
