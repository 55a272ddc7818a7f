import type { Bends } from '../winding/joints/bends.ts';
import { withoutSizes } from '../winding/joints/tips.ts';
import type { Winding } from '../winding/model.ts';
import type { Measuring } from './measure.ts';
import type { RouteOptions } from './question.ts';

/** How connections are measured by what the router is asked, laid once for each of `shifts`, for these wishes and limits. */
export function measuringOf(
  winding: Winding,
  bends: Bends,
  options: RouteOptions,
  shifts: readonly number[],
  { wishes, limits }: Pick<Measuring, 'wishes' | 'limits'>,
): Measuring {
  return {
    winding,
    bends,
    shifts,
    form: options.form ?? 'hairpin',
    connection: options.connection ?? 'star',
    wishes,
    limits,
    tipSizes: options.tipSizes ?? { connection: withoutSizes, far: withoutSizes },
  };
}
