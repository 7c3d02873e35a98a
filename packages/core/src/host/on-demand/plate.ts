import { plateBrief, plateHost } from '../plate/index.js';

export const plate = { ...plateHost, ...plateBrief };
