import { userName, type Zod } from '../input/index.js';
import { defaultMaterial } from '../material/index.js';

/** The name of a material of a brief. */
export const materialName = (z: Zod, sentence: string) =>
  z.meta(z.default(userName(z), defaultMaterial), { description: sentence });
