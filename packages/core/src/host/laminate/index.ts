export { laminateHost } from './host.js';
export type { LaminateJoint, Lens, Pocket, Slot } from './laminate.js';
