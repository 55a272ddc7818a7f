import * as z from 'zod';

// The JSON of variants, version 1: SI units without prefixes, ratios as fractions; null for what is missing.

const count = z.int().check(z.gte(0));
const figure = z.nullable(z.number());
const value = z.union([z.number(), z.string()]);

const variantRowSchema = z.strictObject({
  number: z
    .int()
    .check(z.gte(1))
    .describe('Which candidate: the mixed radix of the rows, from 1; the last row steps first'),
  values: z.record(z.string(), value).describe('By the word of the row; angles in the unit of the row'),
  figures: z.record(z.string(), figure),
  missing: z.record(z.string(), z.string()).describe('Why figures are missing, of the first 200 rows'),
  limits: z
    .nullable(z.array(z.nullable(z.boolean())))
    .describe(
      'Whether each limit of the require block is met, in their order; null where it was not looked at',
    ),
  front: z.boolean().describe('None of those kept beats it in everything ranked by'),
});

export const variantsSchema = z.strictObject({
  schema: z.literal('slotwright-variants/1'),
  version: z.string(),
  textHash: z.string().describe('Tells the question, the text with the rows of options, from others'),
  vary: z.array(
    z.strictObject({
      word: z.string(),
      unit: z.nullable(z.string()).describe('In which the values are written'),
      values: z
        .array(value)
        .describe('SI units, angles in their unit; texts for choices and those counted from the pole pitch'),
      with: z.nullable(z.string()).describe('The word it steps together with'),
    }),
  ),
  hold: z.strictObject({
    field: z.enum(['gap-flux-density', 'flux']),
    load: z.enum(['torque', 'current']),
    room: z.enum(['shares', 'sizes']),
    torque: figure.describe('That is held, Nm'),
    unsettled: z.array(z.string()).describe('What nothing settles, and the rows because of which'),
  }),
  keep: z.array(z.string()),
  rank: z.array(z.string()).describe('The first counts most'),
  figures: z.array(z.string()).describe('Quantities computed of each row'),
  limits: z.array(z.string()).describe('Limits of the require block'),
  top: count.describe('Most rows listed beside the front'),
  candidates: count,
  refused: z
    .array(z.strictObject({ reason: z.string(), count }))
    .describe('Combinations that make no winding'),
  leftOut: count.describe('Not meeting what is kept'),
  kept: count,
  complete: z.boolean().describe('All candidates, or all of the shard, were judged'),
  shard: z.optional(z.strictObject({ index: count, of: count })),
  front: z.nullable(
    z.strictObject({ count, cut: z.boolean().describe('It has more members than can be held') }),
  ),
  rows: z.array(variantRowSchema).describe('The best, and the front, in their order'),
});

/** What `explore --format json` writes. */
export type Variants = z.infer<typeof variantsSchema>;
export type VariantRow = z.infer<typeof variantRowSchema>;
