export { implausibleDelivery } from './delivery.js';
export { implausibleAllow, longSearches } from './limits.js';
export { implausibleLoads } from './loads.js';
export { implausibleMaterials } from './materials.js';
