import { laminateBrief, laminateHost } from '../laminate/index.js';

export const laminate = { ...laminateHost, ...laminateBrief };
