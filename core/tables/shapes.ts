import { layerLetter } from '../language/layerLetters.ts';
import type { BarShape } from '../winding/joints/bars.ts';
import type { JointShape } from '../winding/joints/joints.ts';
import type { PlaceSigns } from '../winding/model.ts';
import type { Column } from './column.ts';

/** How one end of a bar is bent: its layer, and slots to the other bar; `free` for an end that no joint bends. */
export function bentEndWords(
  { layer, bend }: BarShape['ends'][number],
  { minus }: Pick<PlaceSigns, 'minus'>,
  free: string,
): string {
  const slots = bend === null ? free : `${bend > 0 ? '+' : ''}${bend}`.replace('-', minus);
  return `${layerLetter(layer)} ${slots}`;
}

/** A row of a table of bar shapes, or of joint shapes. */
export interface ShapeOf<Shape> {
  readonly shape: Shape;
}

/** The columns of bar shapes that several media show, by what they hold. */
export const barShapeColumn = {
  number: {
    heading: 'bar shape',
    meaning: 'Number of the shape.',
    align: 'right',
    value: ({ shape }) => shape.number,
  },
  form: { heading: 'form', meaning: 'hairpin, single-bar or straight.', value: ({ shape }) => shape.form },
  crown: {
    heading: 'crown',
    meaning: 'Slots from the leg of a hairpin in the lower layer to the other.',
    unit: 'slots',
    align: 'right',
    value: ({ shape }) => shape.crown,
  },
  count: { heading: 'count', meaning: 'How many pieces.', align: 'right', value: ({ shape }) => shape.count },
} as const satisfies Readonly<Record<string, Column<ShapeOf<BarShape>>>>;

/** `a c`: the layers that a joint shape joins. */
function layersWords({ lowerLayer, upperLayer }: JointShape): string {
  return `${layerLetter(lowerLayer)} ${layerLetter(upperLayer)}`;
}

/** The columns of joint shapes, by what they hold. */
export const jointShapeColumn = {
  number: {
    heading: 'shape',
    meaning: 'Number of the joint shape.',
    align: 'right',
    value: ({ shape }) => shape.number,
  },
  side: {
    heading: 'side',
    meaning: 'Side of the stack: connection or far.',
    value: ({ shape }) => shape.side,
  },
  layers: { heading: 'layers', meaning: 'The layers it joins.', value: ({ shape }) => layersWords(shape) },
  offset: {
    heading: 'offset',
    meaning: 'Slots from the bar in the lower layer to the other; within one layer the size alone.',
    unit: 'slots',
    align: 'right',
    value: ({ shape: { offset, lowerLayer, upperLayer } }) =>
      offset > 0 && lowerLayer !== upperLayer ? `+${offset}` : offset,
  },
  kind: {
    heading: 'kind',
    meaning: 'regular, other-span, layer-step or jumper.',
    value: ({ shape }) => shape.kind,
  },
  count: { heading: 'count', meaning: 'How many joints.', align: 'right', value: ({ shape }) => shape.count },
} as const satisfies Readonly<Record<string, Column<ShapeOf<JointShape>>>>;
