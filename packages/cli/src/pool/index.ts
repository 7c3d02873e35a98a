export { createScoring, type Scoring } from './scoring.js';
