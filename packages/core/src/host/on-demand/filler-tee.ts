import { fillerTeeBrief, fillerTeeHost } from '../tee/index.js';

export const fillerTee = { ...fillerTeeHost, ...fillerTeeBrief };
