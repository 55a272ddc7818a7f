import { lazy } from '../figures/lazy.ts';
import { kept, type Measurer } from '../figures/work.ts';
import type { MachineSpecification, Specification } from '../language/specification/specification.ts';
import { buildSpace } from '../space/buildSpace.ts';
import type { AskedClearance } from '../space/clearance/clearance.ts';
import { tipSizes } from '../space/ends/tipSizes.ts';
import type { Space, SpaceInput, SpaceResult } from '../space/space.ts';
import { type TipSpacing, tipSpacing } from '../winding/joints/tips.ts';
import type { EndSide, Winding } from '../winding/model.ts';
import type { ConnectionFacts } from './connection.ts';
import { joinedKey, tableKey, writtenKey, writtenWithout } from './kept.ts';

/** How the bars of a connected winding stand, each part when first asked for. */
export interface Standing {
  /** Every bar in space, and what stands in the way. */
  readonly space: () => SpaceResult;
  /** How the joint tips of a side are spread; null without joints. */
  readonly tips: (side: EndSide) => TipSpacing | null;
  /** What the bars in space are made from. */
  readonly input: () => SpaceInput;
  /** What measuring depends on, as texts that stay the same ones while bars stand so; null without bars in space. */
  readonly keys: () => StandingKeys | null;
}

/** Where bars, pieces and rings stand, as one text, which is long: behind it what else some work depends on. */
export interface StandingKeys {
  readonly clearances: (asked: AskedClearance) => string;
  readonly inductances: () => string;
}

/** How bars stand: as for an earlier text, where the measurer keeps that and this one asks for the same. */
export function keptStanding(
  specification: Specification,
  winding: Winding,
  connected: ConnectionFacts,
  measurer: Measurer,
): Standing {
  const make = () => standingOf(specification, winding, connected);
  const key = () => standingKey(specification, winding, connected);
  return { ...kept(measurer, { kind: 'bars-in-space', key }, make), input: make().input };
}

function standingOf(specification: Specification, winding: Winding, connected: ConnectionFacts): Standing {
  // Where joint tips stand and what passes above them takes the sizes.
  const sizes = lazy(() => tipSizes(specification, winding, connected.joints().bends));
  const spread = (side: EndSide) => lazy(() => tipSpacing(winding, connected.joints(), side, sizes()[side]));
  const tips = { connection: spread('connection'), far: spread('far') };
  const input = lazy(
    (): SpaceInput => ({
      specification,
      winding,
      connections: connected.joints(),
      tips: (side) => tips[side](),
    }),
  );
  const space = lazy(() => connected.stood(specification) ?? buildSpace(input()));
  const keys = lazy(() => {
    const built = space().space;
    return built.known ? keysOf(built.value, winding, connected) : null;
  });
  return { space, tips: (side) => tips[side](), input, keys };
}

function keysOf(space: Space, winding: Winding, connected: ConnectionFacts): StandingKeys {
  const geometry = lazy(() => JSON.stringify(geometryOf(space)));
  const ofClearances = new Map<string, string>();
  return {
    clearances: ({ bars, pieces }) => {
      const asked = `${bars} ${pieces}`;
      const key = ofClearances.get(asked) ?? asked + geometry();
      ofClearances.set(asked, key);
      return key;
    },
    inductances: lazy(() => `${winding.table.cells.join()} ${barsKey(connected)} ${geometry()}`),
  };
}

/** The bars of the paths, found or written, in their order. */
function barsKey({ paths }: ConnectionFacts): string {
  return JSON.stringify(
    paths.map(({ phase, bars }) => [phase, bars.map(({ slot, layer }) => [slot, layer])]),
  );
}

/** Words of the machine that say nothing of how bars stand. All others are taken to. */
const elsewhere: ReadonlySet<string> = new Set<keyof MachineSpecification>([
  'airGap',
  'carter',
  'coolantTemperature',
  'coreCooling',
  'coreHeat',
  'coreTemperature',
  'current',
  'currentAngle',
  'currentHarmonics',
  'currentRipples',
  'dInductance',
  'endTemperature',
  'flux',
  'frequency',
  'magnetHeight',
  'magnetPermeability',
  'qInductance',
  'rotorField',
  'speed',
  'stackFactor',
  'voltage',
  'windingTemperature',
  'yokeHeight',
]);

/** Everything that the places of bars depend on: sizes as written, wherever they stand in the text, and the paths. */
function standingKey(
  { machine, slots: slotBlocks, bar, layout, connect }: Specification,
  winding: Winding,
  connected: ConnectionFacts,
): string {
  const said = [
    machine && writtenWithout(machine, elsewhere),
    writtenKey(slotBlocks),
    bar && writtenKey(bar),
  ];
  const joined = connect && writtenKey([connect.connections, connect.rings]);
  return `${said.join()} ${layout?.skew.length} ${joined} ${tableKey(winding)} ${joinedKey(connected)}`;
}

/** What everything measured of bars, pieces and rings depends on. */
function geometryOf({
  slots,
  stack,
  layers,
  bends,
  ends,
  bars,
  links,
  rings,
  endStraight,
}: Space): readonly unknown[] {
  const forms = ends.map(({ side, layer, use, turn, crownLayer, shift, plane, lead, top }) => [
    side,
    layer,
    use,
    turn,
    crownLayer,
    shift,
    plane,
    lead,
    top,
  ]);
  const standing = bars.map(
    (bar) => bar && [bar.connection.index, bar.far.index, bar.connectionNumber, bar.farNumber],
  );
  const above = links.map(({ from, to, level, section, height, beside, length }) => [
    from,
    to,
    level,
    section,
    height,
    beside,
    length,
  ]);
  const round = rings.map(({ name, section, piece, height }) => [name, section, piece.length, height]);
  return [slots, stack, endStraight, layers, bends, forms, standing, above, round];
}
