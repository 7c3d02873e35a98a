import { expect, it } from 'vitest';
import { InputError } from '../../errors.js';
import type { CubicMesh } from './cubic-mesh.js';
import { madeFiner } from './made-finer.js';

it('makes sides shorter until they are far enough from each other, and says where they never are', () => {
  const mesh = {} as CubicMesh;
  const tried: number[] = [];
  const attempt = (least: number) => (coarseness: number) => {
    tried.push(coarseness);
    return coarseness <= least ? mesh : undefined;
  };
  expect(madeFiner(2, attempt(1.5))).toBe(mesh);
  expect(tried).toEqual([2, 1.5]);
  expect(() => madeFiner(2, attempt(0.25))).toThrow(InputError);
  expect(tried.every((coarseness) => coarseness > 0.25)).toBe(true);
});
