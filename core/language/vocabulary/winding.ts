import { between, positive, valueNamed, whole } from '../specification/rules.ts';
import { plain, statement, type VocabularyEntry } from './entry.ts';

/** Words of the layout block. */
export const layoutWords: readonly VocabularyEntry[] = [
  statement('layout', 'layers', 'count', 'Layers of bars in a slot.', 'layers 4', {
    rules: { count: whole(1, 26) },
  }),
  statement('layout', 'span', 'count', 'Coil span in slots, for a generated layout.', 'span 6', {
    rules: { count: whole(1, 2399) },
  }),
  statement('layout', 'stagger', 'integer', 'Slots by which each further layer pair is moved.', 'stagger 1', {
    rules: { integer: whole(-2399, 2399) },
    default: '0',
  }),
  statement(
    'layout',
    'belt',
    'angle',
    'Width of a phase belt: 180/phases or 360/phases electrical degrees; without it 180/phases.',
    'belt 60 edeg',
    { rules: { angle: positive(360, 'an angle above 0, up to 360 deg, edeg or slot') } },
  ),
  statement(
    'layout',
    'layer',
    "layer ('=' 'layer' layer ('moved' integer)? 'negated'? | row ('repeat' count 'alternating'?)?)",
    'The places of one layer, slot by slot; or a layer derived from another.',
    'layer a  +U -W +V -U +W -V  repeat 4',
    {
      rules: {
        integer: valueNamed("the number after 'moved'", whole(-2399, 2399)),
        count: valueNamed("the number after 'repeat'", whole(1, 2400)),
      },
      repeatable: true,
    },
  ),
  statement(
    'layout',
    'skew',
    "('all' | layer+) angle",
    'Lean of the bars of some layers over the stack, the total.',
    'skew a b +7.5 deg',
    {
      rules: { angle: between(-360, 360, 'an angle from -360 to 360 deg, edeg or slot') },
      repeatable: true,
      default: 'all 0 deg',
    },
  ),
  plain(
    'layout',
    'keyword',
    'moved',
    'Slots by which the derived layer is moved.',
    'layer b = layer a moved 5 negated',
  ),
  plain(
    'layout',
    'keyword',
    'negated',
    'The derived layer has all signs inverted.',
    'layer b = layer a moved 5 negated',
  ),
  plain('layout', 'keyword', 'repeat', 'Repeats the whole row.', 'layer a  +U -W +V  repeat 4'),
  plain(
    'layout',
    'keyword',
    'alternating',
    'Each second copy has its signs inverted.',
    'layer a  +U -W +V  repeat 4 alternating',
  ),
  plain('layout', 'keyword', 'all', 'All layers.', 'skew all 1 slot'),
];

/** Words of the connect block. */
export const connectWords: readonly VocabularyEntry[] = [
  statement(
    'connect',
    'star',
    "'joined'?",
    'The phases end in a star point; joined: two sets share one.',
    'star',
  ),
  statement(
    'connect',
    'delta',
    '',
    'The phases are joined in delta: U2 with V1, V2 with W1, W2 with U1.',
    'delta',
  ),
  statement('connect', 'open', '', 'Both ends of each phase are brought out.', 'open'),
  statement(
    'connect',
    'route',
    "'paths' count ('fewest' 'joints')?",
    'Finds balanced parallel paths with regular crowns.',
    'route paths 2',
    { rules: { count: valueNamed('the number of paths', whole(1, 2400)) }, default: 'paths 1' },
  ),
  statement(
    'connect',
    'path',
    "phase count 'from' terminal 'far'? walk 'to' terminal 'far'?",
    'One path, written bar by bar from its line terminal.',
    'path U 1 from U1 1a (+6b +6a)*3 +6b to N',
    { rules: { count: valueNamed('the path number', whole(1, 2400)) }, repeatable: true },
  ),
  statement(
    'connect',
    'repeat',
    "phase 'as' phase 'shift' integer",
    'Copies all written paths of a phase to another, moved by some slots.',
    'repeat U as V shift 4',
    { rules: { integer: valueNamed('the shift', whole(-2399, 2399)) }, repeatable: true },
  ),
  statement(
    'connect',
    'rings',
    "'star' | 'terminals' | 'all'",
    'Rings above the ends that join star ends, the leads of each terminal, or both; without it there are none.',
    'rings star',
  ),
  plain('connect', 'choice', 'star', 'A ring for each star point.', 'rings star'),
  plain('connect', 'choice', 'terminals', 'A ring for each terminal.', 'rings terminals'),
  plain('connect', 'choice', 'all', 'A ring for each star point and each terminal.', 'rings all'),
  plain('connect', 'keyword', 'joined', 'Both sets end in one star point.', 'star joined'),
  plain('connect', 'keyword', 'paths', 'Number of parallel paths of each phase.', 'route paths 2'),
  plain(
    'connect',
    'keyword',
    'fewest',
    'Prefer the fewest special joints over the fewest jumpers and shapes.',
    'route paths 2 fewest joints',
  ),
  plain('connect', 'keyword', 'joints', 'Ends "fewest joints".', 'route paths 2 fewest joints'),
  plain(
    'connect',
    'keyword',
    'from',
    'The line terminal the path starts at.',
    'path U 1 from U1 1a +6b to N',
  ),
  plain(
    'connect',
    'keyword',
    'to',
    'The terminal or star point the path ends at.',
    'path U 1 from U1 1a +6b to N',
  ),
  plain(
    'connect',
    'keyword',
    'far',
    'That end of the path lies on the far side.',
    'path U 1 from U1 far 1a +6b to N',
  ),
  plain('connect', 'keyword', 'as', 'The phase the paths are copied to.', 'repeat U as V shift 4'),
  plain('connect', 'keyword', 'shift', 'Slots by which the copied paths are moved.', 'repeat U as V shift 4'),
];
