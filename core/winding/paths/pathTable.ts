import type { SlotTable } from '../model.ts';
import type { SourcedPath } from './writtenPaths.ts';

/** Cell code of bar i of a path: + when it is passed from the connection side to the far side. */
export function walkedCell(path: SourcedPath['path'], i: number): number {
  const outward = (i % 2 === 0) !== path.startsFar;
  return outward ? path.phase + 1 : -(path.phase + 1);
}

/** Layers that written paths use: the highest one and all below. */
export function layersOfPaths(paths: readonly SourcedPath[]): number {
  let layers = 0;
  for (const { path } of paths) for (const { layer } of path.bars) layers = Math.max(layers, layer + 1);
  return layers;
}

/** The slot table that written paths make; a bar used twice keeps its first use. */
export function tableOfPaths(paths: readonly SourcedPath[], slots: number, layers: number): SlotTable {
  const cells = new Int8Array(slots * layers);
  for (const { path } of paths) {
    path.bars.forEach((bar, i) => {
      const place = bar.layer * slots + bar.slot - 1;
      if (cells[place] === 0) cells[place] = walkedCell(path, i);
    });
  }
  return { slots, layers, cells };
}
