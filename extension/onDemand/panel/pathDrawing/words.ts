import type { ChangedPaths, JointPlace } from '../../../../core/drawnPaths/changeJoint.ts';
import {
  barsToTake,
  type Drawing,
  firstBars,
  pathsWanted,
  unusedBars,
} from '../../../../core/drawnPaths/drawing.ts';
import type { MadeJoint, NextBar } from '../../../../core/drawnPaths/nextBars.ts';
import { type PathProgress, progressOf, progressOfPaths } from '../../../../core/drawnPaths/progress.ts';
import type { DrawingSource, NoDrawing } from '../../../../core/drawnPaths/source.ts';
import { layerLetter } from '../../../../core/language/layerLetters.ts';
import { firstOf } from '../../../../core/language/lists.ts';
import { fixed, percent, withMinus } from '../../../../core/language/numbers.ts';
import { type Bar, barName, type Path } from '../../../../core/winding/model.ts';
import { l10n } from '../../../wording.ts';

const mostNamed = 12;

/** How a joint is made, and why. */
function jointWords({ kind, reason, tooFar }: MadeJoint): string {
  if (kind === 'regular') return l10n.t('regular');
  if (kind === 'special')
    return reason === 'layer-step'
      ? l10n.t('special: a step to the next layers')
      : l10n.t('special: another span');
  if (tooFar) return l10n.t('piece: farther than a pole pair');
  switch (reason) {
    case 'bridge':
      return l10n.t('piece: over layers between');
    case 'turn-outer':
    case 'turn-inner':
      return l10n.t('piece: within one layer');
    case 'against-lean':
      return l10n.t('piece: against the lean of its layers');
    case 'between-coils':
      return l10n.t('piece: between coils');
    default:
      return l10n.t('piece: in a layer without a partner');
  }
}

/** A bar as it is read aloud. */
function barWords(bar: Bar): string {
  return l10n.t('Bar {0}, layer {1}', bar.slot, layerLetter(bar.layer));
}

/** The path that grows, by its phase and number. */
function pathWords({ base, phase, current }: Drawing): string {
  return `${base.winding.phases.names[phase]} ${current.number}`;
}

/** What the drawing waits for: a start, a next bar, or its end. */
export function waitsFor(drawing: Drawing, marked: number): string {
  const { current } = drawing;
  const phase = drawing.base.winding.phases.names[drawing.phase] ?? '';
  const left = unusedBars(drawing).length;
  if (current.bars.length === 0) {
    const starts = firstBars(drawing);
    if (left === 0) return l10n.t('All bars of {0} are used: Enter writes.', phase);
    const start = starts[marked];
    if (start === undefined)
      return l10n.t('No bar of {0} is left that a path could start with: Enter writes what there is.', phase);
    return l10n.t(
      'Start of path {0}: {1}; {2} of {3}.',
      pathWords(drawing),
      barWords(start),
      marked + 1,
      starts.length,
    );
  }
  const next = barsToTake(drawing);
  const share = progressOf(drawing).share;
  const ended = current.bars.length >= share && current.bars.length % 2 === 0;
  if (left === 0) return l10n.t('All bars of {0} are used: Enter ends the path and writes.', phase);
  const offered = next[marked];
  if (offered === undefined) return l10n.t('No bar can follow here: go a step back, or Enter ends the path.');
  const words = l10n.t(
    'Next: {0}, {1}; {2} of {3}.',
    barWords(offered.bar),
    jointWords(offered),
    marked + 1,
    next.length,
  );
  return ended ? `${l10n.t('The path has its even share: Enter ends it.')} ${words}` : words;
}

/** The step that was just taken: `Bar 7, layer b, regular; 3 of 16.` */
export function takenWords(drawing: Drawing, made: MadeJoint | null): string {
  const { share } = progressOf(drawing);
  const { bars } = drawing.current;
  const of = Number.isInteger(share) ? String(share) : fixed(share, 1);
  const how = made === null ? l10n.t('start of path {0}', pathWords(drawing)) : jointWords(made);
  return l10n.t('{0}, {1}; {2} of {3}.', barWords(bars.at(-1)!), how, bars.length, of);
}

/** How the path and its phase stand, a line each. */
export function standingLines(drawing: Drawing): readonly string[] {
  const { winding } = drawing.base;
  const { current, others, share, unused } = progressOf(drawing);
  const name = winding.phases.names[drawing.phase] ?? '';
  const left = unusedBars(drawing);
  return [
    l10n.t(
      'Path {0}: {1}; {2}',
      `${name} ${current.number}`,
      shareWords(current),
      l10n.t('layers {0}', current.layers.map((count, layer) => `${layerLetter(layer)} ${count}`).join(', ')),
    ),
    ...others.map((each) => l10n.t('Path {0}: {1}', `${name} ${each.number}`, shareWords(each))),
    pathsWanted(drawing) === 1
      ? l10n.t('One path takes all {0} bars', share)
      : Number.isInteger(share)
        ? l10n.t('An even share of {0} paths: {1} bars', pathsWanted(drawing), share)
        : l10n.t('{0} paths cannot share the bars evenly', pathsWanted(drawing)),
    unused === 0
      ? l10n.t('No bar of {0} is unused', name)
      : l10n.t('Unused in {0}: {1} ({2})', name, unused, firstOf(left.map(barName), mostNamed)),
  ];
}

/** Bars and voltage of a path against an even share. */
function shareWords({ bars, relative, angle }: PathProgress): string {
  const count = bars === 1 ? l10n.t('1 bar') : l10n.t('{0} bars', bars);
  if (relative === null || angle === null) return count;
  const turned = fixed(angle, 1);
  const at = /[1-9]/.test(turned) ? l10n.t(', turned by {0}°', withMinus(turned)) : '';
  return l10n.t('{0}, {1} of an even share of the voltage{2}', count, percent(relative, 4), at);
}

/** Why nothing can be drawn. */
export function noDrawingWords(why: Exclude<NoDrawing, 'found'>): string {
  if (why === 'pending') return l10n.t('The paths are still being found. Draw when they are there.');
  if (why === 'not-connected')
    return l10n.t(
      'The text does not say how the phases are joined: a block connect with star, delta or open comes first.',
    );
  return l10n.t('The text has errors that hide its paths. Mend them first: they are listed in the panel.');
}

/** What a joint would lead to instead. */
export function changeWords(
  paths: readonly Path[],
  { path, position }: JointPlace,
  partner: NextBar,
  marked: number,
  count: number,
): string {
  const { bars } = paths[path]!;
  return l10n.t(
    'Joint {0} to {1}: lead it to {2} instead, {3}; {4} of {5}.',
    barName(bars[position]!),
    barName(bars[position + 1]!),
    barWords(partner.bar),
    jointWords(partner),
    marked + 1,
    count,
  );
}

/** The paths of the phase as they would be, a line each. */
export function changeLines(
  { base }: DrawingSource,
  next: ChangedPaths | null,
  phase: number,
): readonly string[] {
  const name = base.winding.phases.names[phase] ?? '';
  if (next === null) return [l10n.t('No place was found for the bars that this would cut off.')];
  return [
    l10n.t('{0} joints would be new', next.newJoints),
    ...progressOfPaths(
      base,
      phase,
      next.paths.filter((path) => path.phase === phase),
    ).map((each) => l10n.t('Path {0}: {1}', `${name} ${each.number}`, shareWords(each))),
  ];
}
