export { defaultMaterial, genericCaution, genericMaterials } from './generic.js';
export { layupFromPlies, layupThickness } from './layup.js';
export { parseLayup } from './layup-notation.js';
export type { Layer, Layup, Ply } from './ply.js';
export { type InPlaneConstants, inPlaneConstants, type SectionStiffness, sectionStiffness } from './stiffness.js';
