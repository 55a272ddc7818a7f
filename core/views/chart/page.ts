import { inEnglish, type Speech } from '../../figures/speech.ts';
import { fitText, printable } from '../../picture/fontMetrics.ts';
import { baseLine, group, text, textRow, textSize } from '../../picture/make.ts';
import type { Picture, Primitive } from '../../picture/picture.ts';
import type { Winding } from '../../winding/model.ts';
import { drawNotes } from '../layout/surroundings.ts';
import { type Frame, panelFrame, type Room } from '../room.ts';

/** White space round every page, in millimeters. */
const pageMargin = 6;

const titleSize = 4.4;

/** Where a page's drawing begins, below its head. */
const bodyTop = pageMargin + 6 + 4.4 + 4;

/** Where a view's drawing begins, on paper or in a panel's room. */
export function frameFor(room: Room | undefined): Frame {
  return room === undefined ? { margin: pageMargin, top: bodyTop, width: null } : panelFrame(room);
}

/** A view's drawing, to be completed by head and notes. */
export interface Page {
  /** The winding's name. */
  readonly title: string;
  /** Name of the view: `section of the slots`. */
  readonly view: string;
  /** The line below the title. */
  readonly facts: string;
  /** The text equivalent of the whole drawing. */
  readonly description: string;
  readonly items: readonly Primitive[];
  /** Whole width and lower end of the drawing. */
  readonly width: number;
  readonly bottom: number;
  readonly notes: readonly string[];
  /** What its own words are in; default English. */
  readonly speech?: Speech | undefined;
}

const widestNote = 240;

/** The picture of a page; in a panel the drawing alone, with its notes beside it. */
export function pagePicture(page: Page, room?: Room): Picture {
  const title = printable(titleWords(page.title, page.speech));
  if (room !== undefined)
    return {
      width: page.width,
      height: page.bottom + panelFrame(room).top,
      title: `${title}: ${page.view}`,
      description: page.description,
      items: page.items,
      notes: [`${page.facts}.`, ...page.notes],
    };
  const textRoom = page.width - 2 * pageMargin;
  const notes = drawNotes(page.notes, pageMargin, page.bottom + 4, Math.min(textRoom, widestNote));
  return {
    width: page.width,
    height: page.bottom + 4 + notes.height + pageMargin,
    title: `${title}: ${page.view}`,
    description: page.description,
    items: [
      group('head', 'title', [
        text('title', 'title', pageMargin, pageMargin + titleSize, fitText(title, titleSize, textRoom), {
          size: titleSize,
        }),
        text(
          'facts',
          'subtitle',
          pageMargin,
          pageMargin + 6 + baseLine + 0.8,
          fitText(page.facts, textSize, textRoom),
        ),
      ]),
      ...page.items,
      group('notes', 'note', notes.items),
    ],
  };
}

/** The winding's name, or that it has none. */
export function titleWords(title: string, { say }: Speech = inEnglish): string {
  return title === '' ? say('Winding without a title') : title;
}

/** A winding in a few words: slots, poles, phases, layers. */
export function windingWords({ slots, poles, layers, phases }: Winding, { say }: Speech = inEnglish): string {
  return [
    say('{0} slots', slots),
    say('{0} poles', poles),
    say('phases {0}', phases.names.join(' ')),
    layers === 1 ? say('1 layer') : say('{0} layers', layers),
  ].join(', ');
}

/** Height of a row of a chart's legend. */
export const legendRow = textRow + 1;
