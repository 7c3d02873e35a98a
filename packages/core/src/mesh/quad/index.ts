export { assembleBody, type BorderedLoad, edgeLoad, elementDofs, numberUnknowns, type Unknowns } from './assemble.js';
export {
  addElementStiffness,
  elementOrder,
  placeIn,
  strainRows,
  stressRows,
  triangleOrder,
  triangleStress,
  turnedTriangle,
} from './element.js';
export { graded, growing, withMiddles } from './grading.js';
export { type Block, joinBlocks, joinParts, type PlacedBlock } from './grid.js';
export {
  type MaterialAxes,
  type SectionBody,
  type SectionMesh,
  type SectionTriangles,
  sideKey,
  tangentAngle,
} from './section-mesh.js';
