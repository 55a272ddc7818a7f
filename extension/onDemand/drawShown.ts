import type { Picture } from '../../core/drawing/picture.ts';
import { drawView } from '../../core/drawing/views.ts';
import type { Study } from '../../core/study.ts';
import type { ShownTable } from '../messages.ts';
import type { Wish } from '../wish.ts';
import { tableOf } from './tables.ts';

/** A view's picture, or the chosen table. */
export type Drawn =
  | { readonly picture: Picture; readonly table: null }
  | { readonly picture: null; readonly table: ShownTable };

/** Draws what is wished for of a study that has a winding; a phase that is not there stands for none. */
export function drawShown(study: Study, wish: Wish): Drawn | null {
  const { facts, title, specification } = study;
  if (!facts) return null;
  if (wish.view === 'tables') return { picture: null, table: tableOf(study, facts, wish.table) };
  const phase = wish.phase === null ? -1 : facts.winding.phases.names.indexOf(wish.phase);
  const picture = drawView({ title, specification, facts }, wish.view, {
    instant: wish.instant,
    wholeCircle: wish.wholeCircle,
    ...(phase < 0 ? {} : { phase }),
  });
  return { picture, table: null };
}
