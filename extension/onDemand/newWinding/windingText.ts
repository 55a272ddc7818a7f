import { format } from '../../../core/language/format/formatter.ts';
import { decimal } from '../../../core/language/numbers.ts';
import type { MachineWish } from './machineWish.ts';
import type { Proposal } from './proposals.ts';

/**
 * The text of a new winding, with words beside each statement that say what else could stand there; short ones, as the
 * drawing takes half of the window.
 */
export function windingText(wish: MachineWish, proposal: Proposal & { readonly paths?: number }): string {
  const { gap, poles, speed, phases, diameter } = wish;
  const { slots, layers, span, windingFactor, parallelPaths, paths = 1 } = proposal;
  const pitch = slots / poles;
  const limit = Math.floor(windingFactor * 100) / 100;
  const coils =
    pitch < 2
      ? `span ${span}  # every coil round a tooth`
      : `span ${span}  # slots; the pole pitch is ${decimal(pitch)}`;
  const sizes = [
    ...(diameter === null
      ? [`# '${gap === 'outer' ? 'outside 200 mm' : 'bore 162 mm'}', 'stack 96 mm': lengths, torque`]
      : [`${gap === 'outer' ? 'outside' : 'bore'} ${decimal(diameter)} mm  # of the stator at the gap`]),
    ...(speed === null
      ? ["# 'speed 1500 rpm': frequency, voltage"]
      : [`speed ${decimal(speed)} rpm  # ${decimal((speed * poles) / 120)} Hz`]),
  ];
  return format(`winding "New winding"

# ${phases === 6 ? 'Two three-phase sets' : `${phases} phases`}, ${poles} poles, ${slots} slots.
# All figures follow while you type.

machine {
  gap ${gap}  # the rotor: inner, outer or both
  slots ${slots}
  poles ${poles}
  phases ${phases}${phases === 6 ? ' apart 30 edeg' : ''}
  ${sizes.join('\n  ')}
}

layout {
  layers ${layers}  # bars in a slot: 1, 2, 4, 6 ...
  ${coils}
}

connect {
  star  # or delta, or open
  route paths ${paths}  # ${parallelPaths > 1 ? `up to ${parallelPaths} balanced ones` : 'found for you'}
}

# Limits, checked while you type.
require {
  winding-factor harmonic 1 >= ${limit}
}

# Further blocks: slot and bar (sizes: fit, losses,
# heat), insulation, duty, sheet (title block).
`);
}
