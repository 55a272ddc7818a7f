import * as z from 'zod';
import { count, figureAt, known } from './schemaNumbers.ts';

/** Joints of a side; null where none is bent from its bars. */
const planes = (side: 'connection' | 'far') =>
  z
    .strictObject({
      lowest: figureAt(`space.jointPlane.${side}.lowest`),
      highest: figureAt(`space.jointPlane.${side}.highest`),
    })
    .nullable();

const sideSchema = z.enum(['connection', 'far']);
const two = z.array(z.string()).length(2);

/** Clearances of coated bar ends, connecting pieces and rings, m; negative: depth of penetration. */
const clearanceSchema = z.strictObject({
  smallest: figureAt('space.clearance.smallest'),
  bars: two.nullable().describe('The two bars; a connecting piece by the bars it joins, a ring by its name'),
  pieces: two.nullable().describe('Their pieces that are nearest each other'),
  side: sideSchema.nullable(),
  kinds: z
    .array(
      z.strictObject({
        kind: z.enum(['leg-leg', 'crown-leg', 'tip-tip', 'piece', 'lead']),
        side: sideSchema,
        smallest: known('m'),
        bars: two,
      }),
    )
    .describe('The smallest of each kind, where bars lie within a slot pitch'),
  layerContact: figureAt('space.clearance.layerContact'),
});

/** Leakage of the end windings of a phase, H. */
const endSchema = z.strictObject({
  phase: figureAt('space.endInductance.phase'),
  low: figureAt('space.endInductance.low'),
  high: figureAt('space.endInductance.high'),
  matrix: z
    .array(z.array(known('H')))
    .describe('Flux linkage of a phase for one ampere in another, in air, a row a phase'),
});

/** Every bar in space: m. */
export const spaceSchema = z.strictObject({
  bars: z
    .array(
      z.strictObject({
        shape: count.describe('Number among shapes.bars'),
        length: known('Developed length, the sum of its pieces, m'),
        pieces: z.array(
          z.strictObject({
            kind: z.enum(['slot', 'straight', 'bend', 'leg', 'crown', 'joint', 'lead']),
            length: known('m'),
          }),
        ),
      }),
    )
    .describe('One a bar shape, as most bars of it are bent, from one end to the other'),
  clearance: clearanceSchema.nullable(),
  endInductance: endSchema.nullable(),
  jointPlane: z.strictObject({ connection: planes('connection'), far: planes('far') }),
  assumptions: z.array(z.string()),
});
