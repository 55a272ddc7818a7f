import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import Ajv from 'ajv-draft-04';
import addFormats from 'ajv-formats';

// The schema of OASIS SARIF 2.1.0, as @microsoft/jest-sarif ships it.
const schemaFile = createRequire(import.meta.url)
  .resolve('@microsoft/jest-sarif')
  .replace(/index\.js$/, 'schemas/sarif-2.1.0-rtm.5.json');
const ajv = new Ajv({ strict: false, unicodeRegExp: false, allErrors: true });
addFormats(ajv as unknown as Parameters<typeof addFormats>[0]);
const valid = ajv.compile(JSON.parse(readFileSync(schemaFile, 'utf8')));

/** What the schema of SARIF 2.1.0 finds wrong with a value as JSON; empty for a valid log. */
export function sarifProblems(log: unknown): readonly unknown[] {
  return valid(JSON.parse(JSON.stringify(log))) ? [] : (valid.errors ?? []);
}
