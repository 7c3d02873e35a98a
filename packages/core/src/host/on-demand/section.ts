import { sectionBrief, sectionHost } from '../section/index.js';

export const section = { ...sectionHost, ...sectionBrief };
