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
    .describe('One a bar shape, as the first bar of the paths that has it, from one end to the other'),
  jointPlane: z.strictObject({ connection: planes('connection'), far: planes('far') }),
  assumptions: z.array(z.string()),
});
