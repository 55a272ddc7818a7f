import { fixed } from '../language/numbers.ts';
import { defaultLine, defaultLines } from '../language/specification/defaults.ts';
import type { Specification } from '../language/specification/specification.ts';
import { barStatements } from '../language/vocabulary/blocks/copper.ts';
import type { EndSizes } from './ends/endSizes.ts';
import type { BendRadii } from './space.ts';

/** What of a winding's ends there is, so that only the defaults that count are told. */
interface Present {
  readonly joints: boolean;
  readonly leads: boolean;
  readonly pieces: boolean;
  readonly rings: boolean;
}

/** Every default that the bars in space rest on. */
export function spaceAssumptions(
  { bar }: Specification,
  sizes: EndSizes,
  radii: BendRadii,
  { joints, leads, pieces, rings }: Present,
): readonly string[] {
  const mm = (length: number) => `${fixed(length * 1000, 2)} mm`;
  const width = Math.max(...sizes.layers.map(({ section }) => section.width));
  return [
    ...(radii.assumed
      ? [
          `bar bend-radius: ${mm(radii.edge)} (${radii.edge < width ? 'less than one bar width, as much as the ends hold' : 'one bar width'}; assumed)`,
        ]
      : []),
    ...(sizes.flatRadius === null
      ? [
          defaultLine(
            { ...barStatements.bendRadius, word: 'bend-radius flat' },
            `${mm(radii.flat)}, as edgewise`,
          ),
        ]
      : []),
    ...(joints
      ? defaultLines(barStatements.jointGap, bar?.jointGap, 'joined bars stand as their layers do')
      : []),
    ...(joints ? defaultLines(barStatements.jointPlane, bar?.jointPlane) : []),
    ...(leads && !bar?.leadLength
      ? ['bar lead-length: leads and star ends stop at the height of a joint (not given)']
      : []),
    ...(pieces
      ? [
          'connecting pieces stand on the tips of their bars',
          ...defaultLines(barStatements.pieceWidth, bar?.pieceWidth, "the bars'"),
          ...defaultLines(barStatements.pieceHeight, bar?.pieceHeight, "the bars'"),
        ]
      : []),
    ...(rings ? ['rings count in the mass, not in the resistance'] : []),
    ...(pieces || rings
      ? defaultLines(
          barStatements.pieceClearance,
          bar?.pieceClearance,
          `${mm(sizes.endClearance)}, the end-clearance`,
        )
      : []),
  ];
}
