import { format } from '../../../core/language/format/formatter.ts';
import { decimal } from '../../../core/language/numbers.ts';
import { l10n } from '../../wording.ts';
import { type BarsWish, hairpins, leanFactor, leanStatements } from './barsWish.ts';
import type { MachineWish } from './machineWish.ts';
import type { Proposal } from './proposals.ts';

/**
 * The text of a new winding, with words beside each statement that say what else could stand there; lines of at most 38
 * letters, which fit between an open list of files and the drawing in a window of 1280 pixels.
 */
export function windingText(
  wish: MachineWish,
  proposal: Proposal & { readonly paths?: number },
  bars: BarsWish = hairpins,
): string {
  const { gap, poles, speed, phases, diameter } = wish;
  const { slots, layers, span, windingFactor, parallelPaths, paths = 1 } = proposal;
  const pitch = slots / poles;
  const leaning = leanStatements(bars);
  const leans = leaning.length > 0 ? [`# ${l10n.t('crossed bars: stiff without a yoke')}`, ...leaning] : [];
  const limit = Math.floor(windingFactor * leanFactor(bars, poles / 2, slots) * 100) / 100;
  const twoSets = phases === 6;
  const head = twoSets
    ? l10n.t('{0} slots, {1} poles, two sets of 3.', slots, poles)
    : l10n.t('{0} slots, {1} poles, {2} phases.', slots, poles, phases);
  const coils =
    pitch < 2 ? l10n.t('every coil round a tooth') : l10n.t('pole pitch: {0} slots', decimal(pitch));
  const other = (words: readonly [string, string]) => l10n.t('or {0}, or {1}', ...words);
  const gaps = ['inner', 'outer', 'both'].filter((each) => each !== gap) as [string, string];
  const across = gap === 'outer' ? 'outside' : 'bore';
  const sizes = [
    ...(diameter === null
      ? [
          `# ${l10n.t('add {0}', `${gap === 'outer' ? 'outside 200' : 'bore 162'} mm, stack 96 mm`)}:`,
          `# ${l10n.t('lengths, torque')}`,
        ]
      : [`${across} ${decimal(diameter)} mm  # ${l10n.t('at the gap')}`]),
    ...(speed === null
      ? [`# ${l10n.t('add {0}', 'speed 1500 rpm')}: ${l10n.t('frequency')}`]
      : [`speed ${decimal(speed)} rpm  # ${decimal((speed * poles) / 120)} Hz`]),
  ];
  return format(`winding "${l10n.t('New winding')}"

# ${head}
# ${l10n.t('All figures follow while you type.')}

machine {
  gap ${gap}  # ${other(gaps)}
  slots ${slots}
  poles ${poles}
  phases ${phases}${twoSets ? ' apart 30 edeg' : ''}
  ${sizes.join('\n  ')}
}

bar {
  form ${bars.form}  # ${l10n.t('or {0}', bars.form === 'hairpin' ? 'straight' : 'hairpin')}
}

layout {
  ${[`layers ${layers}  # ${l10n.t('in a slot: 1, 2, 4 ...')}`, `span ${span}  # ${coils}`, ...leans].join('\n  ')}
}

connect {
  star  # ${other(['delta', 'open'])}
  route paths ${paths}  # ${parallelPaths > 1 ? l10n.t('up to {0} balanced', parallelPaths) : l10n.t('found for you')}
}

# ${l10n.t('Limits, checked while you type.')}
require {
  winding-factor harmonic 1 >= ${limit}
}

# ${l10n.t('More: sizes of slot and bar (losses,\n# heat), insulation, duty, sheet.')}
`);
}
