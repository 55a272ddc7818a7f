import type { FigurePath } from '../figures/register.ts';
import { inEnglish, type Speech } from '../figures/speech.ts';
import { limitChanges } from './limits.ts';
import { isTelling } from './numbers/scales.ts';
import type { ChangedBar, ComparedLimit, Comparison, FileStatus } from './schema.ts';

/** What changed, in a few sentences of our own words; no user text is in them. */
export function summaryText(comparison: Comparison, status: FileStatus = 'changed'): string {
  return [headline(comparison, status), ...details(comparison, status)].join(' ');
}

/** The first of these sentences. */
export function headline(comparison: Comparison, status: FileStatus, { say }: Speech = inEnglish): string {
  if (status === 'added') return say('New winding.');
  if (status === 'deleted') return say('Winding deleted.');
  const { equal, rotation, rewritten, statements, notes } = comparison;
  const written = rewritten.length === 0 ? '' : say(', with {0} written differently', listed(rewritten, say));
  if (rotation !== null)
    return equal
      ? say(
          'The same winding, renumbered: slot 1 is now slot {0}, and so on round the bore{1}.',
          rotation + 1,
          written,
        )
      : say(
          'The same layout, renumbered: slot 1 is now slot {0}, and so on round the bore{1}.',
          rotation + 1,
          written,
        );
  const unwound = notes.some((note) => note.includes('yields no winding'));
  if (unwound)
    return equal ? say('The same statements, which yield no winding.') : say('Not comparable as windings.');
  if (equal && statements.length === 0) return say('The same winding{0}.', written);
  if (equal) return say('The same layout, paths and joints{0}.', written);
  return onlyConnected(comparison)
    ? say('The same layout, connected otherwise.')
    : say('The winding changed.');
}

/** Statements that move bars or make them other ones, whatever stands in their places. */
const ofLayout = /^(layout|machine (slots|poles|phases|gap))\b/;

/** Whether every bar has its phase and sense as before, and only joints and paths are others. */
function onlyConnected({ statements, bars, joints }: Comparison): boolean {
  return (
    bars.every(inOtherPath) &&
    joints.added.length + joints.removed.length > 0 &&
    !statements.some(({ what }) => ofLayout.test(what))
  );
}

/** Whether a bar is in another path and else what it was. */
function inOtherPath({ old, new: now }: ChangedBar): boolean {
  const sense = (place: string | null) => place?.replace(/ path \d+$/, '');
  return old !== null && now !== null && sense(old) === sense(now);
}

/** How many bars are others and how many are in other paths, as parts of a sentence; none of none. */
export function changedBarsParts(
  bars: readonly ChangedBar[],
  { say }: Speech = inEnglish,
): readonly string[] {
  const paths = bars.filter(inOtherPath).length;
  const places = bars.length - paths;
  return [
    counted(places, say('1 bar place changed'), say('{0} bar places changed', places)),
    counted(paths, say('1 bar in another path'), say('{0} bars in another path', paths)),
  ].filter((part) => part !== '');
}

/** The others: how the limits stand, what changed in copper, what in numbers, what was found. */
export function details(
  comparison: Comparison,
  status: FileStatus,
  speech: Speech = inEnglish,
): readonly string[] {
  const { say } = speech;
  const { findings, accepted, limits, errors, warnings } = comparison;
  const sentences: string[] = [];
  const changes = limitChangesText(limits, speech);
  if (changes !== '') sentences.push(changes);
  const asked = limits.filter(({ limit }) => limit !== null);
  if (asked.length > 0 && status !== 'deleted') sentences.push(holdingText(asked, say));
  if (status === 'changed' || status === 'renamed')
    sentences.push(
      ...changesText(comparison, speech),
      ...madeOtherwise(comparison, say),
      ...numbersText(comparison, say),
    );
  const fresh = findings.new.length;
  const gone = findings.gone.length;
  if (status === 'added' && fresh > 0)
    sentences.push(counted(fresh, say('1 finding.'), say('{0} findings.', fresh)));
  else if (status !== 'deleted' && fresh + gone > 0)
    sentences.push(
      fresh === 1 ? say('1 new finding, {0} gone.', gone) : say('{0} new findings, {1} gone.', fresh, gone),
    );
  if (status !== 'deleted' && accepted.new.length + accepted.gone.length > 0)
    sentences.push(acceptedText(accepted, speech));
  if (errors.new > 0)
    sentences.push(
      errors.new === errors.old
        ? counted(errors.new, say('1 error now, as before.'), say('{0} errors now, as before.', errors.new))
        : counted(errors.new, say('1 error now.'), say('{0} errors now.', errors.new)),
    );
  else if (errors.old > 0 && status !== 'deleted') sentences.push(say('No errors any more.'));
  if (warnings.new > warnings.old && status === 'added')
    sentences.push(counted(warnings.new, say('1 warning.'), say('{0} warnings.', warnings.new)));
  return sentences;
}

type Say = Speech['say'];

function changesText({ statements, bars, joints, shapes }: Comparison, speech: Speech): readonly string[] {
  const { say } = speech;
  const [newBars, newJoints] = [shapes.bars.added.length, shapes.joints.added.length];
  const [added, removed] = [joints.added.length, joints.removed.length];
  const parts = [
    counted(statements.length, say('1 statement changed'), say('{0} statements changed', statements.length)),
    ...changedBarsParts(bars, speech),
    counted(added, say('1 joint added'), say('{0} joints added', added)),
    counted(removed, say('1 joint removed'), say('{0} joints removed', removed)),
    counted(newBars, say('1 new bar shape'), say('{0} new bar shapes', newBars)),
    counted(newJoints, say('1 new joint shape'), say('{0} new joint shapes', newJoints)),
  ].filter((part) => part !== '');
  return parts.length === 0 ? [] : [`${listed(parts, say)}.`];
}

/** Statements of a bar block, of all layers or of some. */
const barWord = /^bar\b.* (\S+)$/;
const sectionWords: ReadonlySet<string> = new Set(['width', 'height', 'corner', 'coating']);

/** Where the report has the mean length of a bar. */
const barLength: FigurePath = 'copper.length.bars';

/** Whether the shop makes other bars, whatever their shapes are: those are told by layers and slots alone. */
function madeOtherwise({ statements, numbers }: Comparison, say: Say): readonly string[] {
  const ofBars = statements.flatMap(({ what, old, new: now }) => {
    const word = what.match(barWord)?.[1];
    return word === undefined ? [] : [{ word, oneSided: old === null || now === null }];
  });
  // Bars whose sizes one text does not tell are not known to be others.
  const told = !ofBars.some(({ word, oneSided }) => word === 'width' && oneSided);
  const section = told && ofBars.some(({ word }) => sectionWords.has(word));
  const metal = told && ofBars.some(({ word }) => word === 'metal');
  const length = numbers.some(
    (number) => number.quantity === barLength && number.difference !== null && isTelling(number),
  );
  const parts = [
    section ? say('another section') : '',
    metal ? say('another metal') : '',
    length ? say('another mean length') : '',
  ].filter((part) => part !== '');
  return parts.length === 0 ? [] : [say('Bars are made otherwise: {0}.', listed(parts, say))];
}

function numbersText({ numbers }: Comparison, say: Say): readonly string[] {
  const better = numbers.filter((number) => number.better === true).length;
  const worse = numbers.filter((number) => number.better === false).length;
  const telling = numbers.filter(isTelling).length;
  if (telling > 0)
    return [
      counted(
        telling,
        say('1 number moved: {0} better, {1} worse.', better, worse),
        say('{0} numbers moved: {1} better, {2} worse.', telling, better, worse),
      ),
    ];
  if (numbers.length === 0) return [];
  return [
    counted(numbers.length, say('1 number hardly moved.'), say('{0} numbers hardly moved.', numbers.length)),
  ];
}

/** How many of the limits that are asked hold, and how many cannot be told. */
function holdingText(asked: readonly ComparedLimit[], say: Say): string {
  const failing = asked.filter(({ holds }) => holds === false);
  const untold = asked.filter(({ holds }) => holds === null);
  const all = asked.length;
  const before = (some: readonly ComparedLimit[]) => {
    const held = some.filter(({ heldBefore }) => heldBefore === true).length;
    return held > 0 ? say(' ({0} held before)', held) : '';
  };
  const [fail, none] = [failing.length, untold.length];
  const parts: string[] = [];
  if (fail > 0 && all === 1) parts.push(say('The limit fails{0}.', before(failing)));
  else if (fail === 1) parts.push(say('1 of {0} limits fails{1}.', all, before(failing)));
  else if (fail > 1) parts.push(say('{0} of {1} limits fail{2}.', fail, all, before(failing)));
  if (none > 0 && all === 1) parts.push(say('The limit cannot be computed{0}.', before(untold)));
  else if (none === 1) parts.push(say('1 of {0} limits cannot be computed{1}.', all, before(untold)));
  else if (none > 1) parts.push(say('{0} of {1} limits cannot be computed{2}.', none, all, before(untold)));
  if (parts.length > 0) return parts.join(' ');
  if (all === 1) return say('The limit holds.');
  return all === 2 ? say('Both limits hold.') : say('All {0} limits hold.', all);
}

/** `1 limit loosened and 2 limits dropped.`; what asks for less stands first. Empty where all ask for the same. */
export function limitChangesText(limits: readonly ComparedLimit[], { say }: Speech = inEnglish): string {
  const { loosened, dropped, tightened, new: fresh } = limitChanges(limits);
  const parts = [
    counted(loosened, say('1 limit loosened'), say('{0} limits loosened', loosened)),
    counted(dropped, say('1 limit dropped'), say('{0} limits dropped', dropped)),
    counted(tightened, say('1 limit tightened'), say('{0} limits tightened', tightened)),
    counted(fresh, say('1 new limit'), say('{0} new limits', fresh)),
  ].filter((part) => part !== '');
  return parts.length === 0 ? '' : `${listed(parts, say)}.`;
}

/** `2 kinds of warning are newly accepted, 1 no more.` */
function acceptedText({ new: fresh, gone }: Comparison['accepted'], { say }: Speech = inEnglish): string {
  const [newly, left] = [fresh.length, gone.length];
  if (newly === 0)
    return counted(
      left,
      say('1 kind of warning is accepted no more.'),
      say('{0} kinds of warning are accepted no more.', left),
    );
  const more = left === 0 ? '' : say(', {0} no more', left);
  return counted(
    newly,
    say('1 kind of warning is newly accepted{0}.', more),
    say('{0} kinds of warning are newly accepted{1}.', newly, more),
  );
}

/** The words for one, or for many; none for none. */
function counted(number: number, one: string, many: string): string {
  if (number === 0) return '';
  return number === 1 ? one : many;
}

/** `a`, `a and b`, `a, b and c`. */
function listed(parts: readonly string[], say: Say): string {
  return parts.length < 2
    ? (parts[0] ?? '')
    : say('{0} and {1}', parts.slice(0, -1).join(', '), parts[parts.length - 1]!);
}
