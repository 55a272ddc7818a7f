import { mostSlots } from '../../counts.ts';
import {
  amount,
  angle,
  given,
  hasKeyword,
  layersOf,
  oneOf,
  quantities,
} from '../../specification/reading.ts';
import { between, positive, valueNamed, whole } from '../../specification/rules.ts';
import type {
  Angle,
  LayerRow,
  PathCopy,
  PerLayers,
  PhaseConnection,
  RouteRequest,
  WishWord,
  WrittenPath,
} from '../../specification/statements.ts';
import type { Statement } from '../../text/document.ts';
import { plain, type VocabularyEntry } from '../entry.ts';
import { statementsOf } from '../word.ts';

/** Statements of the layout block, in canonical order. */
export const layoutStatements = statementsOf('layout', {
  layers: {
    pattern: 'count',
    read: amount,
    rules: { count: whole(1, 26) },
    meaning: 'Layers of bars in a slot.',
    example: 'layers 4',
  },
  span: {
    pattern: 'count',
    read: amount,
    rules: { count: whole(1, 2399) },
    meaning: 'Coil span in slots, for a generated layout.',
    example: 'span 6',
  },
  stagger: {
    pattern: 'integer',
    read: amount,
    rules: { integer: whole(-2399, 2399) },
    meaning: 'Slots by which each further layer pair is moved.',
    example: 'stagger 1',
    default: '0',
  },
  belt: {
    pattern: 'angle',
    read: angle,
    rules: { angle: positive(360, 'an angle above 0, up to 360 deg, edeg or slot') },
    meaning: 'Width of a phase belt: 180/phases or 360/phases electrical degrees; without it 180/phases.',
    example: 'belt 60 edeg',
  },
  rows: {
    word: 'layer',
    pattern: "layer ('=' 'layer' layer ('moved' integer)? 'negated'? | row ('repeat' count 'alternating'?)?)",
    read: readLayer,
    rules: {
      integer: valueNamed("the number after 'moved'", whole(-2399, 2399)),
      count: valueNamed("the number after 'repeat'", whole(1, mostSlots)),
    },
    meaning: 'The places of one layer, slot by slot; or a layer derived from another.',
    example: 'layer a  +U -W +V -U +W -V  repeat 4',
    repeatable: true,
  },
  /** Lean of layers; null layers means all. */
  skew: {
    pattern: "('all' | layer+) angle",
    read: readLean,
    rules: { angle: between(-360, 360, 'an angle from -360 to 360 deg, edeg or slot') },
    meaning: 'Lean of the bars of some layers over the stack, the total.',
    example: 'skew a b +7.5 deg',
    repeatable: true,
    default: 'all 0 deg',
  },
});

/** Words of the layout block. */
export const layoutWords: readonly VocabularyEntry[] = [
  ...Object.values(layoutStatements),
  ...plain('layout', 'keyword', {
    moved: ['Slots by which the derived layer is moved.', 'layer b = layer a moved 5 negated'],
    negated: ['The derived layer has all signs inverted.', 'layer b = layer a moved 5 negated'],
    repeat: ['Repeats the whole row.', 'layer a  +U -W +V  repeat 4'],
    alternating: ['Each second copy has its signs inverted.', 'layer a  +U -W +V  repeat 4 alternating'],
    all: ['All layers.', 'skew all 1 slot'],
  }),
];

/** Statements of the connect block, in canonical order. */
export const connectStatements = statementsOf('connect', {
  star: {
    pattern: "'joined'?",
    read: readStar,
    place: ({ range }) => range,
    meaning: 'The phases end in a star point; joined: two sets share one.',
    example: 'star',
  },
  delta: {
    pattern: '',
    read: (): PhaseConnection => 'delta',
    place: ({ range }) => range,
    meaning: 'The phases are joined in delta: U2 with V1, V2 with W1, W2 with U1.',
    example: 'delta',
  },
  open: {
    pattern: '',
    read: (): PhaseConnection => 'open',
    place: ({ range }) => range,
    meaning: 'Both ends of each phase are brought out.',
    example: 'open',
  },
  route: {
    pattern:
      "'paths' count ('fewest' ('pieces' | 'levels' | 'shapes' | 'joints' | 'bar-shapes' | 'legs-apart') | 'least' ('voltage' | 'copper' | 'window') | 'deviation' ratio)*",
    read: readRoute,
    rules: {
      count: valueNamed('the number of paths', whole(1, mostSlots)),
      ratio: valueNamed('the deviation', between(0, 1, 'a share from 0 % to 100 %')),
    },
    meaning:
      'Finds balanced parallel paths. What is wished for counts in the order written; behind it pieces, their levels, joint shapes, special joints, copper, terminal window.',
    example: 'route paths 2 fewest joints least copper',
    default: 'paths 1',
    recurring: ['fewest', 'least'],
  },
  /** Where special spans may lie. */
  specials: {
    ...oneOf('joined', 'crowns', 'either'),
    meaning:
      'Where special spans lie: in the joined legs, which are then bent apart from their ring, or in the crowns, which leaves every ring alike. Without it in the joined legs, and on either side where no balanced paths are possible so.',
    example: 'specials crowns',
    default: 'joined',
  },
  paths: {
    word: 'path',
    pattern: "phase count 'from' terminal 'far'? walk 'to' terminal 'far'?",
    read: readPath,
    rules: { count: valueNamed('the path number', whole(1, mostSlots)) },
    meaning: 'One path, written bar by bar from its line terminal.',
    example: 'path U 1 from U1 1a (+6b +6a)*3 +6b to N',
    repeatable: true,
  },
  copies: {
    word: 'repeat',
    pattern: "phase 'as' phase 'shift' integer",
    read: readCopy,
    rules: { integer: valueNamed('the shift', whole(-2399, 2399)) },
    meaning: 'Copies all written paths of a phase to another, moved by some slots.',
    example: 'repeat U as V shift 4',
    repeatable: true,
  },
  /** Which ends are joined by rings; absent: none. */
  rings: {
    ...oneOf('star', 'terminals', 'all'),
    meaning:
      'Rings that join star ends, the leads of each terminal, or both: above their ends, or beside what goes on past them, behind the winding first; without it there are none.',
    example: 'rings star',
  },
});

/** Words of the connect block. */
export const connectWords: readonly VocabularyEntry[] = [
  ...Object.values(connectStatements),
  ...plain('connect', 'choice', {
    star: ['A ring for each star point.', 'rings star'],
    terminals: ['A ring for each terminal.', 'rings terminals'],
    all: ['A ring for each star point and each terminal.', 'rings all'],
  }),
  ...plain('connect', 'keyword', {
    joined: ['Both sets end in one star point.', 'star joined'],
    paths: ['Number of parallel paths of each phase.', 'route paths 2'],
    fewest: [
      'Begins a wish for the fewest of something, before what is not wished for.',
      'route paths 2 fewest joints',
    ],
    least: [
      'Begins a wish for the least of something, before what is not wished for.',
      'route paths 2 least copper',
    ],
    pieces: ['Separate connecting pieces.', 'route paths 2 fewest pieces'],
    levels: ['Levels of connecting pieces one above another.', 'route paths 2 fewest levels'],
    shapes: ['Shapes of special joints.', 'route paths 2 fewest shapes'],
    joints: ['Special joints.', 'route paths 2 fewest joints'],
    'bar-shapes': ['Shapes of bars.', 'route paths 2 fewest bar-shapes'],
    'legs-apart': ['Legs bent apart from their ring.', 'route paths 2 fewest legs-apart'],
    voltage: ['The voltage between neighboring bars of a slot.', 'route paths 2 least voltage'],
    copper: ['The slots that all joints reach over.', 'route paths 2 least copper'],
    window: ['The arc that holds the starts of a phase’s paths.', 'route paths 2 least window'],
    deviation: [
      'Accepts paths that do not agree place by place where slots hold two phases, up to this deviation of their currents by slot leakage.',
      'route paths 2 deviation 2 %',
    ],
  }),
  ...plain('connect', 'choice', {
    joined: ['In the joined legs.', 'specials joined'],
    crowns: ['In the crowns.', 'specials crowns'],
    either: ['On either side.', 'specials either'],
  }),
  ...plain('connect', 'keyword', {
    from: ['The line terminal the path starts at.', 'path U 1 from U1 1a +6b to N'],
    to: ['The terminal or star point the path ends at.', 'path U 1 from U1 1a +6b to N'],
    far: ['That end of the path lies on the far side.', 'path U 1 from U1 far 1a +6b to N'],
    as: ['The phase the paths are copied to.', 'repeat U as V shift 4'],
    shift: ['Slots by which the copied paths are moved.', 'repeat U as V shift 4'],
  }),
];

function readLayer(statement: Statement): LayerRow {
  const [layer, from] = layersOf(statement) as [number, number | undefined];
  const row = statement.values.find((value) => value.kind === 'row');
  const amounts = quantities(statement);
  if (row?.kind === 'row') {
    return {
      kind: 'row',
      layer,
      places: row.places,
      repeat: amounts[0]?.value ?? 1,
      alternating: hasKeyword(statement, 'alternating'),
      rowRange: { start: row.range.start, end: statement.range.end },
    };
  }
  const fromValue = statement.values.filter((value) => value.kind === 'layer')[1]!;
  return {
    kind: 'derived',
    layer,
    from: from!,
    fromRange: fromValue.range,
    moved: amounts[0]?.value ?? 0,
    negated: hasKeyword(statement, 'negated'),
  };
}

function readLean(statement: Statement): PerLayers<Angle> {
  return { layers: hasKeyword(statement, 'all') ? null : layersOf(statement), value: angle(statement) };
}

function readStar(statement: Statement): PhaseConnection {
  return hasKeyword(statement, 'joined') ? 'star-joined' : 'star';
}

function readRoute(statement: Statement): RouteRequest {
  const [paths, deviation] = quantities(statement);
  const wishes = statement.values.flatMap((value, index) => {
    const before = statement.values[index - 1];
    const opens = before?.kind === 'keyword' && (before.text === 'fewest' || before.text === 'least');
    return opens && value.kind === 'keyword' ? [value.text as WishWord] : [];
  });
  return { paths: paths!.value, wishes, deviation: deviation?.value ?? null };
}

function readPath(statement: Statement): WrittenPath {
  const [phase, from, to] = statement.values.filter((value) => value.kind === 'mark');
  const number = quantities(statement)[0]!;
  const walk = statement.values.find((value) => value.kind === 'walk');
  const farAt = statement.values.flatMap((value) =>
    value.kind === 'keyword' && value.text === 'far' ? [value.range.start] : [],
  );
  if (walk?.kind !== 'walk') throw new RangeError('a path statement without its walk');
  return {
    phase: given(statement, phase!.text, phase!.range),
    number: given(statement, number.value, number.range),
    from: given(statement, from!.text, from!.range),
    fromFar: farAt.some((start) => start < walk.range.start),
    to: given(statement, to!.text, to!.range),
    toFar: farAt.some((start) => start > walk.range.start),
    steps: walk.steps,
    walkRange: walk.range,
  };
}

function readCopy(statement: Statement): PathCopy {
  const [phase, as] = statement.values.filter((value) => value.kind === 'mark');
  const shift = quantities(statement)[0]!;
  return {
    phase: given(statement, phase!.text, phase!.range),
    as: given(statement, as!.text, as!.range),
    shift: given(statement, shift.value, shift.range),
  };
}
