/** Imported before any schema: the content policy forbids the code generation that zod would otherwise try out. */
import { config } from 'zod/mini';

config({ jitless: true });
