import { fixed } from '../language/numbers.ts';
import type { Specification } from '../language/specification/specification.ts';
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
    ...(sizes.flatRadius === null ? [`bar bend-radius flat: ${mm(radii.flat)}, as edgewise (default)`] : []),
    ...(joints && !bar?.jointGap ? ['bar joint-gap: joined bars stand as their layers do (default)'] : []),
    ...(joints && !bar?.jointPlane ? ['bar joint-plane: free (default)'] : []),
    ...(leads && !bar?.leadLength
      ? ['bar lead-length: leads and star ends stop at the height of a joint (not given)']
      : []),
    ...(pieces
      ? [
          'connecting pieces stand on the tips of their bars',
          ...(bar?.pieceWidth ? [] : ["bar piece-width: the bars' (default)"]),
          ...(bar?.pieceHeight ? [] : ["bar piece-height: the bars' (default)"]),
        ]
      : []),
    ...(rings ? ['rings count in the mass, not in the resistance'] : []),
    ...((pieces || rings) && !bar?.pieceClearance
      ? [`bar piece-clearance: ${mm(sizes.endClearance)}, the end-clearance (default)`]
      : []),
  ];
}
