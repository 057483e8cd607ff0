import * as z from 'zod';
import { BATCH_RECORD_SCHEMA, batchRecordFile } from '#lib/protocol/export';

/** The published schema of a batch's file, as text; the same as the file beside this one, which a test holds it against. */
export const batchSchemaText = (): string => {
  const { $schema, ...rest } = z.toJSONSchema(batchRecordFile, { target: 'draft-2020-12', io: 'input' });
  const schema = { $schema, $id: BATCH_RECORD_SCHEMA, title: 'A batch record of Potwatch', ...rest };
  return `${JSON.stringify(schema, null, 2)}\n`;
};
