import { env, l10n } from 'vscode';
import { factorColumns } from './messages.ts';
import type { NoticeWords } from './panelContent.ts';
import type { PageWords } from './panelPage.ts';

/** The page's fixed words in the reader's language. */
export function pageWords(): PageWords {
  return {
    language: env.language,
    title: l10n.t('Winding layout'),
    tools: l10n.t('View of the drawing'),
    fit: l10n.t('Fit'),
    zoomIn: l10n.t('Zoom in'),
    zoomOut: l10n.t('Zoom out'),
    drawing: l10n.t('Drawing of the developed winding'),
    drawingKeys: l10n.t('Plus and minus zoom, 0 fits the drawing into its area, the arrow keys move it.'),
    figures: l10n.t('Key figures'),
    factors: l10n.t('Winding factors and waves'),
    columns: columnTitles(),
  };
}

/** The wording of the panel's notices in the reader's language. */
export function noticeWords(): NoticeWords {
  return {
    outOfDate: {
      stamp: l10n.t('Out of date'),
      headline: l10n.t('Out of date: the text has errors. Shown is the last winding that could be drawn.'),
    },
    partly: {
      stamp: l10n.t('Incomplete'),
      headline: l10n.t('The text has errors. Shown is what could be read of it.'),
    },
    nothing: { stamp: '', headline: l10n.t('Nothing to draw yet: the text does not yield a layout.') },
    working: {
      stamp: l10n.t('Working'),
      headline: l10n.t('Paths are being found. Until then coil ends are drawn.'),
    },
    line: (line, message) => l10n.t('Line {0}: {1}', line, message),
    more: (count) => l10n.t('Further errors: {0}.', count),
  };
}

function columnTitles(): string[] {
  const titles: Readonly<Record<(typeof factorColumns)[number], string>> = {
    order: l10n.t('Order'),
    harmonic: l10n.t('Harmonic'),
    distribution: l10n.t('Distribution'),
    pitch: l10n.t('Pitch'),
    skew: l10n.t('Skew'),
    winding: l10n.t('Winding factor'),
    wave: l10n.t('Wave'),
    direction: l10n.t('Direction'),
  };
  return factorColumns.map((column) => titles[column]);
}
