import { cellAt, type Winding } from '../model.ts';

/**
 * Whether the bars of a layer can be joined in pairs, a bar to one of its phase that is passed the other way, so
 * that no crown reaches over one leg of another alone. Such pairs are nested like brackets, so they exist where the
 * row of bars cancels to nothing as a word of letters and their inverses (free reduction, from either end the same).
 */
export function crownsCanPass({ slots, table }: Pick<Winding, 'slots' | 'table'>, layer: number): boolean {
  const open: number[] = [];
  for (let slot = 1; slot <= slots; slot++) {
    const cell = cellAt(table, slot, layer);
    if (cell === 0) continue;
    if (open.at(-1) === -cell) open.pop();
    else open.push(cell);
  }
  return open.length === 0;
}
