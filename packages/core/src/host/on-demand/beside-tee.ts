import { besideTeeHost, teeBrief } from '../tee/index.js';

export const besideTee = { ...besideTeeHost, ...teeBrief };
