import { format } from '../../../core/language/format/formatter.ts';
import { decimal } from '../../../core/language/numbers.ts';
import type { MachineWish } from './machineWish.ts';
import type { Proposal } from './proposals.ts';

/** The text of a new winding, with words beside each statement that say what else could stand there. */
export function windingText(wish: MachineWish, proposal: Proposal): string {
  const { gap, poles, speed, phases, diameter } = wish;
  const { slots, layers, span, windingFactor, parallelPaths } = proposal;
  const pitch = slots / poles;
  const limit = Math.floor(windingFactor * 100) / 100;
  const coils =
    pitch < 2
      ? `span ${span}       # every coil round a tooth`
      : `span ${span}       # slots, coil side to coil side; pole pitch ${decimal(pitch)}`;
  const sizes = [
    ...(diameter === null
      ? [
          `# ${gap === 'outer' ? 'outside 200 mm' : 'bore 162 mm'} and stack 96 mm give lengths, torque and losses`,
        ]
      : [`${gap === 'outer' ? 'outside' : 'bore'} ${decimal(diameter)} mm  # stator diameter at the gap`]),
    ...(speed === null
      ? ['# speed 1500 rpm gives frequency, voltage and losses']
      : [`speed ${decimal(speed)} rpm  # ${decimal((speed * poles) / 120)} Hz`]),
  ];
  return format(`winding "New winding"

# ${phases === 6 ? 'Two three-phase sets' : `${phases} phases`}, ${poles} poles, ${slots} slots.
# All figures follow while you type.

machine {
  gap ${gap}  # where the rotor stands: inner, outer or both
  slots ${slots}
  poles ${poles}
  phases ${phases}${phases === 6 ? ' apart 30 edeg' : ''}
  ${sizes.join('\n  ')}
}

layout {
  layers ${layers}  # bars in a slot; any even number
  ${coils}
}

connect {
  star  # or delta, or open
  route paths 1  # parallel paths${parallelPaths > 1 ? `; up to ${parallelPaths} balanced` : ', found for you'}
}

require {
  winding-factor harmonic 1 >= ${limit}  # checked live
}

# Further blocks: slot and bar (sizes: fit, losses, heat),
# insulation, joint, sheet (title block).
`);
}
