import { expect, it } from 'vitest';
import { pocketInBend, slotInSkin } from '../../../../../../test/fixtures/pocket-tees.js';
import { hostOf } from '../../index.js';
import { controlContour } from '../../laminate/index.js';
import { type PocketTee, pocketSite } from './site.js';
import { meshPocketTee } from './tee-mesh.js';

const wish = { wall: 0.05, edgeRadius: 0.08 };

it.each([
  ['in the bend', pocketInBend(1), wish],
  ['in the skin', slotInSkin(1), wish],
  ['with a thin wall', pocketInBend(1), { wall: 0.02, edgeRadius: 0.02 }],
])('tells the size of a tee with a pocket %s within a third', (_, tee, wish) => {
  const joint = tee as PocketTee;
  const site = pocketSite(joint);
  const { elements } = hostOf(joint).size!(wish);
  const made = meshPocketTee(joint, site, controlContour(site.laminate, wish), 1).body.mesh.elements.length / 9;
  expect(Math.abs(elements / made - 1)).toBeLessThan(0.33);
});
