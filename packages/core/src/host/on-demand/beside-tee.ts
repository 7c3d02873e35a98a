import { besideTeeBrief, besideTeeHost } from '../tee/index.js';

export const besideTee = { ...besideTeeHost, ...besideTeeBrief };
