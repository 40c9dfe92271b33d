import * as z from 'zod/mini';
import { bookSchema, DOCUMENT_VERSION } from './schema.ts';

/** The published JSON Schema of a document, as the text of its file (rule D4). */
export function jsonSchemaText(): string {
  const schema = z.toJSONSchema(bookSchema);
  const about = {
    title: 'A Kerfbook workbook',
    description: `Document version ${DOCUMENT_VERSION}. Formulas keep row and column ids instead of addresses.`,
  };
  return `${JSON.stringify({ ...schema, ...about }, null, 2)}\n`;
}
