import { l10n } from 'vscode';
import type { Picture, Primitive } from '../../core/picture/picture.ts';
import { compare } from '../../core/review/compare.ts';
import { overlayPicture } from '../../core/review/overlay.ts';
import type { Comparison } from '../../core/review/schema.ts';
import { details, headline } from '../../core/review/summary.ts';
import type { Study } from '../../core/study.ts';
import { foldedSlot } from '../../core/winding/model.ts';
import type { ComparisonContent, Difference } from '../comparisonMessages.ts';
import { comparisonTables } from './comparisonTables.ts';

/** One of the two texts with its study. */
export interface StudiedSide {
  readonly source: string;
  readonly name: string;
  readonly study: Study;
}

/** What the comparison panel shows of two texts. */
export function comparisonContent(old: StudiedSide, now: StudiedSide): ComparisonContent {
  const comparison = compare(old.study, now.study);
  const pending = old.study.pending || now.study.pending;
  const side = ({ source, name, study }: StudiedSide, prefix: string) => {
    const picture = study.layoutPicture();
    return { source, name, picture: picture && renamed(picture, prefix) };
  };
  return {
    kind: 'comparison',
    headline: headline(comparison, 'changed'),
    details: [
      ...(pending ? [l10n.t('Paths are being found; joints follow.')] : []),
      ...details(comparison, 'changed'),
      ...comparison.notes.map(
        (note) => `${note.charAt(0).toUpperCase()}${note.slice(1)}${/[.!?]$/.test(note) ? '' : '.'}`,
      ),
    ],
    old: side(old, 'old-'),
    now: side(now, 'new-'),
    overlay: overlayPicture(old.study, now.study),
    differences: differencesOf(comparison, old.study.winding?.slots ?? 0),
    tables: comparisonTables(comparison),
  };
}

/** The picture with other ids, so that several can stand on one page. */
function renamed(picture: Picture, prefix: string): Picture {
  const rename = (item: Primitive): Primitive => {
    const id = `${prefix}${item.id}`;
    return item.kind === 'group' ? { ...item, id, items: item.items.map(rename) } : { ...item, id };
  };
  return { ...picture, items: picture.items.map(rename) };
}

/** The changed bars by their slots, then joints and leads that are gone and that are new. */
function differencesOf({ bars, joints, rotation }: Comparison, oldSlots: number): readonly Difference[] {
  const words = (text: string | null) => (text ?? l10n.t('empty')).replace('-', '−');
  return [
    ...bars.map(({ bar, old, new: now }) => ({
      words: l10n.t('{0}: {1} → {2}', bar, words(old), words(now)),
      old: { bar: turnedBack(bar, rotation ?? 0, oldSlots) },
      now: { bar },
    })),
    ...joints.removed.map(({ number, from, to }) => ({
      words: l10n.t('Removed: joint {0} from {1} to {2}', number, from, to),
      old: { joint: number },
      now: null,
    })),
    ...joints.added.map(({ number, from, to }) => ({
      words: l10n.t('Added: joint {0} from {1} to {2}', number, from, to),
      old: null,
      now: { joint: number },
    })),
  ];
}

/** A bar's name before slots were renumbered by `rotation`. */
function turnedBack(bar: string, rotation: number, slots: number): string {
  const slot = Number.parseInt(bar, 10);
  if (rotation === 0 || slots === 0) return bar;
  return `${foldedSlot(slot - rotation, slots)}${bar.replace(/^\d+/, '')}`;
}
