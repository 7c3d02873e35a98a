import { pocketTeeBrief, pocketTeeHost } from '../tee/index.js';

export const pocketTee = { ...pocketTeeHost, ...pocketTeeBrief };
