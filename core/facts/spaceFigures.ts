import { type Figure, known, missing, type Sorted, sortFigures } from '../figures/figure.ts';
import type { FigurePath } from '../figures/register.ts';
import type { Space, SpaceResult } from '../space/space.ts';

/** Figures of the bars in space. */
export interface SpaceFigures extends Sorted {
  readonly space: Figure<Space>;
}

/** What the figures are computed from: the bars in space, null while they are not joined, and what would join them. */
export interface SpaceFiguresInput {
  readonly result: SpaceResult | null;
  readonly pathsNeed: string;
}

/** The figures of the bars in space, with what is missing and what they rest on. */
export function spaceFigures({ result, pathsNeed }: SpaceFiguresInput): SpaceFigures {
  const space = result?.space ?? missing(pathsNeed);
  const sorted = sortFigures(planeFigures(space));
  return space.known
    ? { space, ...sorted }
    : { space, ...sorted, missing: [{ quantity: 'space', needs: space.needs }, ...sorted.missing] };
}

/** Joint planes of the sides that have joints. */
function planeFigures(space: Figure<Space>): Partial<Record<FigurePath, Figure<number>>> {
  if (!space.known) return {};
  const { connection, far } = space.value.jointPlanes;
  return {
    ...(connection && {
      'space.jointPlane.connection.lowest': known(connection.lowest),
      'space.jointPlane.connection.highest': known(connection.highest),
    }),
    ...(far && {
      'space.jointPlane.far.lowest': known(far.lowest),
      'space.jointPlane.far.highest': known(far.highest),
    }),
  };
}
