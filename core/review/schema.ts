import * as z from 'zod';
import { barShapeSchema, findingSchema, jointSchema, jointShapeSchema } from '../report/schema.ts';

// The comparison's JSON, version 1: SI units without prefixes, ratios as fractions; `old` or `new` is null
// for what is not there on that side.

const maybe = z.number().nullable();
const maybeText = z.string().nullable();
const count = z.number().int().min(0);

/** A statement that says something else, in its own words; `what` is its block and word. */
const changedStatementSchema = z.strictObject({ what: z.string(), old: maybeText, new: maybeText });

/** A place whose phase, sense or parallel path differs, by the new numbers of slots and paths: `+U path 1`. */
const changedBarSchema = z.strictObject({ bar: z.string(), old: maybeText, new: maybeText });

const countedJointShape = jointShapeSchema.omit({ number: true, count: true });
const countedBarShape = barShapeSchema.omit({ number: true, count: true, length: true });
const oldAndNew = { old: count, new: count };

const changedShapesSchema = z.strictObject({
  joints: z.strictObject({
    added: z.array(jointShapeSchema),
    removed: z.array(jointShapeSchema),
    counts: z.array(countedJointShape.extend(oldAndNew)),
  }),
  bars: z.strictObject({
    added: z.array(barShapeSchema),
    removed: z.array(barShapeSchema),
    counts: z.array(countedBarShape.extend(oldAndNew)),
  }),
});

/**
 * A number that moved. `quantity` is a word of `require`, else the number's place in the report. `better`
 * is null where neither direction is.
 */
const changedNumberSchema = z.strictObject({
  quantity: z.string(),
  harmonic: z.string().optional(),
  phase: z.string().optional(),
  /** SI unit, for figures that are no quantity of `require` and have one. */
  unit: z.string().optional(),
  old: maybe,
  new: maybe,
  difference: maybe,
  better: z.boolean().nullable(),
});

/** What became of an acceptance limit: it asks for less, or nothing any more, or for more, or is new. */
const limitChangeSchema = z.enum(['loosened', 'dropped', 'tightened', 'new']);

/**
 * How an acceptance limit stands before and after. `limit` is null where the new text has none any more,
 * `oldLimit` where the old one had none; `change` is null where both ask for the same, or only one text is
 * there; `margin` is the room left, negative where the limit fails.
 */
const comparedLimitSchema = z.strictObject({
  quantity: z.string(),
  /** The point of the duty that it holds at, by name. */
  point: z.string().optional(),
  harmonic: maybe,
  order: maybe,
  relation: z.enum(['<=', '>=']),
  limit: maybe,
  oldLimit: maybe,
  change: limitChangeSchema.nullable(),
  old: maybe,
  new: maybe,
  margin: maybe,
  heldBefore: z.boolean().nullable(),
  holds: z.boolean().nullable(),
});

/** Warnings of a code that one text accepts and the other does not; `messages` are the warnings it accepts. */
const comparedAcceptSchema = z.strictObject({
  code: z.string(),
  reason: z.string(),
  messages: z.array(z.string()),
});

const comparisonShape = {
  /** Same bars, senses, paths and joints, up to numbering. */
  equal: z.boolean(),
  /** Slots by which the numbering moved: old slot s is new slot s + rotation, beyond the last slot from 1 on. */
  rotation: z.number().int().min(1).nullable(),
  /** What was not compared, and what no list can say. */
  notes: z.array(z.string()),
  /** Blocks that are written differently and mean the same. */
  rewritten: z.array(z.string()),
  statements: z.array(changedStatementSchema),
  bars: z.array(changedBarSchema),
  joints: z.strictObject({ added: z.array(jointSchema), removed: z.array(jointSchema) }),
  shapes: changedShapesSchema,
  numbers: z.array(changedNumberSchema),
  limits: z.array(comparedLimitSchema),
  findings: z.strictObject({ new: z.array(findingSchema), gone: z.array(findingSchema) }),
  /** Codes whose warnings the new text accepts and the old one did not, and those accepted no more. */
  accepted: z.strictObject({ new: z.array(comparedAcceptSchema), gone: z.array(comparedAcceptSchema) }),
  errors: z.strictObject(oldAndNew),
  warnings: z.strictObject(oldAndNew),
};

/** The comparison of two windings. */
export const comparisonSchema = z.strictObject(comparisonShape);

const status = z.enum(['added', 'deleted', 'renamed', 'changed', 'same']);

/**
 * One file of several. A file that is the same letter by letter has no comparison, under its old name or a new
 * one, nor has one whose new text cannot be read; one whose old text cannot be read is compared with nothing.
 */
const comparedFileSchema = z.strictObject({
  file: z.string(),
  /** The file's name before, where it was renamed. */
  oldFile: z.string().optional(),
  status,
  /** What could not be read of it, and why. */
  trouble: z.string().optional(),
  comparison: comparisonSchema.nullable(),
});

/** What `compare --format json` writes: one comparison, or one for each file. */
export const compareSchema = z.union([
  z.strictObject({ schema: z.literal('slotwright-compare/1'), ...comparisonShape }),
  z.strictObject({
    schema: z.literal('slotwright-compare/1'),
    files: z.array(
      z.union([
        // Of a renamed file that holds the same text nothing else is told.
        comparedFileSchema.omit({ comparison: true }).extend({ equal: z.literal(true).optional() }),
        comparedFileSchema.omit({ comparison: true }).extend(comparisonShape),
      ]),
    ),
    /** What was not looked at to recognize renamed files. */
    notes: z.array(z.string()),
  }),
]);

export type Comparison = z.infer<typeof comparisonSchema>;
export type ChangedStatement = z.infer<typeof changedStatementSchema>;
export type ChangedBar = z.infer<typeof changedBarSchema>;
export type ChangedShapes = z.infer<typeof changedShapesSchema>;
export type ChangedNumber = z.infer<typeof changedNumberSchema>;
export type LimitChange = z.infer<typeof limitChangeSchema>;
export type ComparedLimit = z.infer<typeof comparedLimitSchema>;
export type ComparedAccept = z.infer<typeof comparedAcceptSchema>;
export type ComparedFile = z.infer<typeof comparedFileSchema>;
export type FileStatus = z.infer<typeof status>;
