import { teeBrief, teeHost } from '../tee/index.js';

export const tee = { ...teeHost, ...teeBrief };
