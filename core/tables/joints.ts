import type { ConnectionFacts } from '../facts/connection.ts';
import type { Facts } from '../facts/facts.ts';
import type { PathEnd, WindingJoint } from '../winding/joints/joints.ts';
import { barName, type EndSide, type JointKind } from '../winding/model.ts';
import type { Column } from './column.ts';
import { whose } from './whose.ts';

/** A joint, a lead or a connection to a star point. */
export interface JointRow {
  /** From 1, in welding order. */
  readonly number: number;
  readonly side: EndSide;
  readonly phase: string;
  /** Number of its path within the phase. */
  readonly path: number;
  /** Where it begins and ends, in the direction of its path: bars and terminals. */
  readonly from: string;
  readonly to: string;
  /** Slots from one to the other, signed and unreduced, and from leg to leg beyond the stack; null for leads and star points. */
  readonly span: number | null;
  readonly trueSpan: number | null;
  readonly kind: JointKind;
  readonly separatePiece: boolean;
  /** Number of its joint shape. */
  readonly shape: number | null;
}

/** The columns of joints, by what they hold. */
export const jointColumn = {
  number: {
    heading: 'number',
    meaning: 'Number of the joint or lead, as in the report: the connection side first.',
    align: 'right',
    value: ({ number }) => number,
    subject: ({ number }) => ({ joint: number }),
  },
  side: whose.side,
  phase: whose.phase,
  path: whose.path,
  from: {
    heading: 'from',
    meaning: 'Bar or terminal at which it begins, in the direction of its path.',
    align: 'right',
    value: ({ from }) => from,
  },
  to: {
    heading: 'to',
    meaning: 'Bar or terminal at which it ends.',
    align: 'right',
    value: ({ to }) => to,
  },
  span: {
    heading: 'span',
    meaning: 'Slots from bar to bar, positive towards higher numbers; empty for leads and star points.',
    unit: 'slots',
    align: 'right',
    value: ({ span }) => span,
  },
  trueSpan: {
    heading: 'true span',
    meaning: 'Slots between the bars where they leave the stack; other than the span where bars lean.',
    unit: 'slots',
    value: ({ trueSpan }) => trueSpan,
  },
  kind: {
    heading: 'kind',
    meaning: 'regular, other-span, layer-step, jumper (a separate connecting piece), lead or star.',
    value: ({ kind }) => kind,
  },
  separatePiece: {
    heading: 'separate piece',
    meaning: 'yes where a separate piece makes the joint.',
    value: ({ separatePiece }) => (separatePiece ? 'yes' : 'no'),
  },
  shape: {
    heading: 'shape',
    meaning: 'Number of its joint shape in the report.',
    align: 'right',
    value: ({ shape }) => shape,
  },
} as const satisfies Readonly<Record<string, Column<JointRow>>>;

export const jointColumns: readonly Column<JointRow>[] = Object.values(jointColumn);

/** A joint as a row. */
export function jointRow({ winding }: Facts, { paths }: ConnectionFacts, joint: WindingJoint): JointRow {
  const { number, side, span, trueSpan, kind, separatePiece, shape } = joint;
  return {
    number,
    side,
    phase: winding.phases.names[joint.phase]!,
    path: paths[joint.path]!.number,
    from: barName(joint.from),
    to: barName(joint.to),
    span,
    trueSpan,
    kind,
    separatePiece,
    shape,
  };
}

function endRow({ winding }: Facts, { paths }: ConnectionFacts, end: PathEnd): JointRow {
  const { number, side, kind, terminal } = end;
  const bar = barName(end.bar);
  const starts = end.end === 'start';
  return {
    number,
    side,
    phase: winding.phases.names[end.phase]!,
    path: paths[end.path]!.number,
    from: starts ? terminal : bar,
    to: starts ? bar : terminal,
    span: null,
    trueSpan: null,
    kind,
    separatePiece: false,
    shape: null,
  };
}

/** Every joint by number, then every lead and star point. */
export function jointRows(facts: Facts, connection: ConnectionFacts): readonly JointRow[] {
  const { joints, ends } = connection.joints();
  return [
    ...joints.map((joint) => jointRow(facts, connection, joint)),
    ...ends.map((end) => endRow(facts, connection, end)),
  ];
}
