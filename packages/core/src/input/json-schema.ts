export { toJSONSchema } from 'zod/mini';
