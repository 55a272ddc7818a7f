import type { SpaceFigures } from '../facts/spaceFigures.ts';
import { derive, type Figure, known } from '../figures/figure.ts';
import { type Sorted, sortFigures } from '../figures/groups.ts';
import type { FigurePath } from '../figures/register.ts';
import type { Space } from '../space/space.ts';

/** What the figures of the bars in space lack and rest on; of what stands or falls with the bars, these alone are missing. */
export function sortedSpace({ space, ...figures }: SpaceFigures): Sorted {
  const [smallest, endInductance] = [figures.smallest(), figures.endInductance()];
  const spread = endInductance.known ? figures.endSpread() : endInductance;
  const sorted = sortFigures({
    ...planeFigures(space),
    ...(smallest.known ? { 'space.clearance.smallest': smallest } : {}),
    ...(endInductance.known && {
      'space.endInductance.phase': derive({ endInductance }, (given) => given.endInductance.phase),
    }),
    ...(spread.known && {
      'space.endInductance.low': derive({ spread }, (given) => given.spread.low),
      'space.endInductance.high': derive({ spread }, (given) => given.spread.high),
    }),
  });
  const absent = space.known ? [] : [{ quantity: 'space', needs: space.needs }];
  return { ...sorted, missing: [...absent, ...sorted.missing] };
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
