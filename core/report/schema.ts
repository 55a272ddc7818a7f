import * as z from 'zod';
import { routeWishes } from '../routing/route.ts';
import { copperSchema, dutySchema, emfSchema, ironSchema, operationSchema } from './machineSchema.ts';
import { count, figure, figureAt, known, maybe, number } from './schemaNumbers.ts';
import { spaceSchema } from './spaceSchema.ts';

// The report's JSON, version 1: camelCase, SI units without prefixes, ratios as fractions, angles in
// degrees; null or [] for what cannot be computed.

const placeSchema = z.strictObject({ line: count.min(1), column: count.min(1) });
const rangeSchema = z.strictObject({ start: placeSchema, end: placeSchema });

export const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning', 'info']),
  message: z.string(),
  range: rangeSchema,
  related: z.array(z.strictObject({ message: z.string(), range: rangeSchema })),
  accepted: z
    .string()
    .optional()
    .describe('The reason with which the text accepts this warning, an info then'),
});

/** Warnings of one code that the text accepts with a reason; `range` is that of the accept. */
const acceptedSchema = z.strictObject({
  code: z.string(),
  reason: z.string(),
  range: rangeSchema,
  findings: z.array(z.strictObject({ message: z.string(), range: rangeSchema })),
});

const windingSchema = z.strictObject({
  slots: count,
  poles: count,
  phases: count,
  layers: count,
  bars: count,
  barsPerPhase: count,
  parallelPaths: count,
  seriesTurns: number,
  slotsPerPolePerPhase: z.string(),
  basicSlots: count,
  basicPolePairs: count,
  identicalGroups: count,
  largestParallelPaths: count,
  largestParallelPathsAnyCrowns: count,
  coggingPeriods: count,
  radialSymmetry: count,
  balanced: z.boolean(),
  runsWithSlotNumbers: z.boolean(),
});

const factorSchema = z.strictObject({
  order: count.min(1),
  harmonic: z.string(),
  distribution: maybe,
  pitch: maybe,
  skew: maybe,
  winding: number,
  coilPitch: number.optional(),
});

const waveSchema = z.strictObject({
  order: count.min(1),
  harmonic: z.string(),
  direction: z.enum(['forward', 'backward']),
  amplitude: known('A, or for 1 A rms in each phase'),
  relative: figureAt('mmf.waves[].relative'),
});

const sideSchema = z.enum(['connection', 'far']);

/** Bars from the line terminal on; the voltage is relative to the mean path of the phase. */
const pathSchema = z.strictObject({
  phase: z.string(),
  path: count,
  from: z.string(),
  to: z.string(),
  bars: z.array(z.string()),
  voltage: z.strictObject({
    relative: figure('Of the mean path of its phase, fraction'),
    angle: figure('From the mean path, electrical degrees'),
  }),
  layerCounts: z.array(count),
});

/** A joint of two bars, or a lead or star connection between a bar and a terminal, which has no span. */
export const jointSchema = z.strictObject({
  number: count,
  side: sideSchema,
  from: z.string(),
  to: z.string(),
  span: count.nullable(),
  kind: z.enum(['regular', 'other-span', 'layer-step', 'jumper', 'lead', 'star']),
});

export const jointShapeSchema = z.strictObject({
  number: count,
  side: sideSchema,
  lowerLayer: z.string(),
  upperLayer: z.string(),
  offset: count,
  count,
});

export const barShapeSchema = z.strictObject({
  number: count,
  form: z.enum(['hairpin', 'single-bar', 'straight']),
  crown: count.nullable(),
  ends: z.array(z.strictObject({ layer: z.string(), bend: count.nullable() })),
  count,
  length: figure('Developed length of a piece, the mean of the shape, m'),
});

const jointCounts = { specialJoints: count, jumpers: count, jointShapes: count };

/** A connection to choose: counts of one phase, levels and legs of all; `paths` as they are written out. */
const candidateSchema = z.strictObject({
  pieces: count,
  levels: count,
  jointShapes: count,
  barShapes: count,
  legsBentApart: count,
  specialJoints: count,
  voltageInSlot: figure('Of the phase voltage, fraction'),
  copperLength: figure('Length of all bars and connecting pieces, m'),
  terminalWindow: known('Arc that holds the starts of all paths, mechanical degrees'),
  paths: z.array(z.string()),
});

/**
 * Counts of one phase. `tipGap`: smallest distance between neighboring joint tips of the connection
 * side, in slot pitches; null where no joint is bent there. `wishes`: what counted most, in this
 * order, before the default order; `specials`: where special spans may lie; both null for written
 * paths, for which nothing was tried. `candidates`: connections to choose from, the
 * present one first; none for written paths. `hash` tells one set of paths from another.
 */
const routingSchema = z.strictObject({
  wishes: z.array(z.enum(routeWishes)).nullable(),
  specials: z.enum(['joined', 'crowns', 'either']).nullable(),
  strict: z.boolean().nullable(),
  ...jointCounts,
  legsBentApart: count,
  tipGap: maybe,
  bounds: z.strictObject(jointCounts).nullable(),
  proved: z.array(z.string()),
  tried: z.array(
    z.strictObject({
      method: z.string(),
      nodes: count,
      exhausted: z.boolean(),
      found: z.strictObject({ ...jointCounts, tipGap: number }).nullable(),
    }),
  ),
  hash: z.string(),
  candidates: z.array(candidateSchema),
});

/** Voltage between two bars relative to the phase voltage. */
const barGapSchema = z.strictObject({
  value: known('Of the phase voltage, fraction'),
  bars: z.array(z.string()),
  side: sideSchema,
});

/**
 * Boundaries between phases: layer letters and slots. In the ends a boundary lies between the bar of the
 * slot and the next bar of its layer.
 */
const phaseInsulationSchema = z.strictObject({
  inSlots: z.array(z.strictObject({ lower: z.string(), upper: z.string(), slots: z.array(count) })),
  inEnds: z.array(z.strictObject({ layer: z.string(), slots: z.array(count) })),
});

/** How a figure of the report is computed, and where that comes from. */
const modelSchema = z.strictObject({
  quantity: z.string(),
  unit: z.string(),
  line: z.string(),
  source: z.string(),
});

const limitSchema = z.strictObject({
  quantity: z.string(),
  harmonic: maybe,
  order: maybe,
  point: z.string().optional().describe('The point of the duty it holds at, by name'),
  /** Null, with the limit, where its line could not be read; `met` is then null too. */
  relation: z.enum(['<=', '>=']).nullable(),
  limit: maybe,
  actual: maybe,
  met: z.boolean().nullable(),
});

export const reportSchema = z.strictObject({
  schema: z.literal('slotwright-report/1'),
  title: z.string(),
  winding: windingSchema.nullable(),
  symmetry: z.strictObject({ rotationSlots: count, negated: z.boolean() }).nullable(),
  factors: z.array(factorSchema),
  factorsByPhase: z.array(z.strictObject({ phase: z.string(), factors: z.array(factorSchema) })).optional(),
  mmf: z
    .strictObject({
      perAmpere: z.boolean(),
      waves: z.array(waveSchema),
      outerWaves: z.array(waveSchema).optional(),
      differentialLeakage: figureAt('mmf.differentialLeakage'),
    })
    .nullable(),
  noise: z.array(
    z.strictObject({
      order: count,
      statorOrder: count,
      rotorOrder: count,
      frequencyMultiple: count,
      product: number,
    }),
  ),
  emf: emfSchema.nullable(),
  paths: z.array(pathSchema),
  joints: z.array(jointSchema),
  shapes: z.strictObject({ joints: z.array(jointShapeSchema), bars: z.array(barShapeSchema) }),
  routing: routingSchema.nullable(),
  balance: z.strictObject({
    pathVoltageDifference: figureAt('balance.pathVoltageDifference'),
    phaseVoltageDifference: figureAt('balance.phaseVoltageDifference'),
    circulatingCurrent: figureAt('balance.circulatingCurrent'),
    pathCurrentDeviation: figureAt('balance.pathCurrentDeviation'),
  }),
  phaseInsulation: phaseInsulationSchema.nullable(),
  voltageBetweenBars: z
    .strictObject({ inSlot: barGapSchema.nullable(), betweenSlots: barGapSchema.nullable() })
    .nullable(),
  operation: operationSchema.nullable(),
  duty: dutySchema.nullable(),
  iron: ironSchema.nullable(),
  copper: copperSchema.nullable(),
  space: spaceSchema.nullable(),
  models: z.array(modelSchema),
  limits: z.array(limitSchema),
  assumptions: z.array(z.string()),
  missing: z.array(z.strictObject({ quantity: z.string(), needs: z.array(z.string()) })),
  findings: z.array(findingSchema),
  accepted: z.array(acceptedSchema),
});

export type Report = z.infer<typeof reportSchema>;
export type ReportedFinding = z.infer<typeof findingSchema>;
export type ReportedAccepted = z.infer<typeof acceptedSchema>;
