import type { CheckedText } from '../../core/findings/checkedText.ts';
import { fixed } from '../../core/language/numbers.ts';
import { barName, cellAt, placeName, printedSigns } from '../../core/winding/model.ts';
import type { Subject } from '../protocol/subject.ts';
import { l10n } from '../wording.ts';
import { type BarUse, barNamed, barUse, connectionOf } from './barUse.ts';

/** What a subject is, in one line; empty for what the winding does not have. */
export function nameOf(study: CheckedText, subject: Subject): string {
  const { winding } = study;
  if (!winding) return '';
  if ('bar' in subject) {
    const bar = barNamed(winding, subject.bar);
    if (bar === null) return '';
    const use = barUse(study, bar);
    return use ? barWords(study, use) : l10n.t('{0}: an empty place', subject.bar);
  }
  if ('coil' in subject) return l10n.t('Coil end {0}: no path joins its bars', subject.coil);
  if ('slot' in subject) return slotWords(study, subject.slot);
  return subject.joint === null ? '' : endWords(study, subject.joint);
}

/** A bar in one line: position, phase, path, place in the path, sense, EMF angle. */
function barWords(study: CheckedText, { bar, phase, sense, place, emfAngle }: BarUse): string {
  const parts = [
    l10n.t('phase {0}', study.winding?.phases.names[phase] ?? ''),
    ...(place ? [l10n.t('path {0}', place.path.number)] : []),
    ...(place ? [l10n.t('bar {0} of {1}', place.index + 1, place.path.bars.length)] : []),
    sense > 0 ? l10n.t('away from the connection side') : l10n.t('back to the connection side'),
    l10n.t('EMF at {0}°', shortAngle(emfAngle)),
  ];
  return `${barName(bar)}: ${parts.join(', ')}`;
}

function shortAngle(angle: number): string {
  return fixed(angle, 2).replace(/\.?0+$/, '');
}

function slotWords(study: CheckedText, slot: number): string {
  const { winding } = study;
  if (!winding || slot < 1 || slot > winding.slots) return '';
  const places = Array.from({ length: winding.layers }, (_, layer) =>
    placeName(cellAt(winding.table, slot, layer), winding.phases, printedSigns),
  );
  return l10n.t('Slot {0}: {1}', slot, places.join(' '));
}

/** A joint, lead or connection to a star point. */
function endWords(study: CheckedText, number: number): string {
  const connection = connectionOf(study);
  const names = study.winding?.phases.names ?? [];
  const joint = connection?.joints().joints.find((one) => one.number === number);
  if (connection && joint) {
    const { from, to, span, kind, side, phase } = joint;
    return l10n.t(
      'Joint {0}: {1} to {2}, span {3}, {4}, {5} side, phase {6}, path {7}',
      number,
      barName(from),
      barName(to),
      span,
      kind,
      side,
      names[phase] ?? '',
      connection.paths[joint.path]?.number ?? '',
    );
  }
  const end = connection?.joints().ends.find((one) => one.number === number);
  if (!connection || !end) return '';
  return l10n.t(
    '{0} {1} of phase {2}, path {3}, at bar {4}',
    end.kind === 'lead' ? l10n.t('Lead') : l10n.t('Star point'),
    end.terminal,
    names[end.phase] ?? '',
    connection.paths[end.path]?.number ?? '',
    barName(end.bar),
  );
}
