import type { Room } from '../../../core/views/room.ts';
import type { Wish } from '../../protocol/wish.ts';
import { type Opening, readingScale, type Size } from './viewport.ts';

/** How a view opens. */
export function openingOf({ view, wholeCircle }: Wish): Opening {
  if (view === 'layout') return 'height';
  if (view === 'section') return wholeCircle ? 'whole' : 'legible';
  if (view === 'space') return 'whole';
  return 'width';
}

/** Millimeters in which the room of the drawing is told: not every pixel makes another picture. */
const step = 4;
/** Pixels for a scroll bar. */
const scrollBar = 14;

/** Millimeters that a line or two more above the drawing take: for them it is not laid out anew. */
const lines = 12;

/**
 * The room of the drawing at the scale at which it is read, for an area of so many pixels; its height stays as it was
 * `before` where it is hardly another, because words above wrap while they are typed.
 */
export function roomOf({ width, height }: Size, before: Room | null = null): Room {
  const millimeters = (pixels: number) => Math.max(step, Math.floor(pixels / readingScale / step) * step);
  const room = { width: millimeters(width - scrollBar), height: millimeters(height) };
  const stays = before?.width === room.width && Math.abs(before.height - room.height) <= lines;
  return stays ? before : room;
}
