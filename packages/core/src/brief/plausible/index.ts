export { implausibleChannel } from './channel.js';
export { implausibleDelivery } from './delivery.js';
export { implausibleAllow, longSearches } from './limits.js';
export { implausibleLoads, implausibleSizes } from './loads.js';
export { implausibleMaterials } from './materials.js';
