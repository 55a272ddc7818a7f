import type { Picture, Primitive } from '../../../core/picture/picture.ts';

/** The strip below the drawing: the whole development, with the part that is seen marked. */
export interface Overview {
  /** Call with each picture that is shown; null for a view without a strip. */
  readonly show: (picture: Picture | null) => void;
  /** The part of the width that is seen, from 0 to 1. */
  readonly seen: (part: { readonly from: number; readonly to: number }) => void;
}

/** The parts of the page it works on; the strip is a scroll bar of the drawing's area. */
export interface OverviewParts {
  readonly strip: HTMLElement;
  readonly canvas: HTMLCanvasElement;
  readonly mark: HTMLElement;
  /** The drawing, where the phases' colors are set. */
  readonly drawing: HTMLElement;
}

/** Milliseconds after which the strip follows the drawing: not with every letter. */
const pause = 120;

/** Lines of these things are enough to know the place by. */
const drawnRoles: ReadonlySet<Primitive['role']> = new Set([
  'bar',
  'joint',
  'special-joint',
  'connecting-piece',
  'coil-end',
  'lead',
  'star-point',
  'bar-section',
  'pole-block',
]);

/** The strip of a drawing; `center` moves the drawing to a share of its width, from 0 to 1. */
export function controlOverview(parts: OverviewParts, center: (share: number) => void): Overview {
  const { strip, canvas, mark } = parts;
  let picture: Picture | null = null;
  let part = { from: 0, to: 1 };
  let timer: ReturnType<typeof setTimeout> | undefined;
  /** Where within the mark it is held, as a share of the strip; null while it is not. */
  let held: number | null = null;

  const redraw = () => {
    if (picture === null || strip.clientWidth === 0) return;
    drawOverview(canvas, picture, strip, parts.drawing.querySelector('svg') ?? parts.drawing);
  };
  const later = () => {
    clearTimeout(timer);
    timer = setTimeout(redraw, pause);
  };
  const at = ({ clientX }: PointerEvent) => {
    const { left, width } = strip.getBoundingClientRect();
    return (clientX - left) / Math.max(width, 1);
  };
  const middle = () => (part.from + part.to) / 2;
  strip.addEventListener('pointerdown', (event) => {
    if (event.button !== 0) return;
    strip.setPointerCapture(event.pointerId);
    const place = at(event);
    held = place >= part.from && place <= part.to ? place - middle() : 0;
    center(place - held);
  });
  strip.addEventListener('pointermove', (event) => {
    if (held !== null) center(at(event) - held);
  });
  for (const end of ['pointerup', 'pointercancel'] as const)
    strip.addEventListener(end, () => {
      held = null;
    });
  strip.addEventListener('keydown', (event) => {
    const width = part.to - part.from;
    const next = {
      ArrowLeft: middle() - width / 4,
      ArrowRight: middle() + width / 4,
      PageUp: middle() - width,
      PageDown: middle() + width,
      Home: 0,
      End: 1,
    }[event.key];
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    center(next);
  });
  new ResizeObserver(later).observe(strip);
  // Another theme has other colors.
  new MutationObserver(later).observe(document.body, { attributeFilter: ['class'] });
  return {
    show: (next) => {
      strip.hidden = next === null;
      if (next !== null && next.items !== picture?.items) later();
      picture = next;
    },
    seen: (next) => {
      part = next;
      const { from, to } = next;
      mark.style.left = `${100 * from}%`;
      mark.style.width = `${100 * (to - from)}%`;
      const room = 1 - (to - from);
      strip.setAttribute('aria-valuenow', String(room < 1e-3 ? 0 : Math.round((100 * from) / room)));
    },
  };
}

function drawOverview(canvas: HTMLCanvasElement, picture: Picture, strip: HTMLElement, colors: Element) {
  const density = window.devicePixelRatio;
  const [width, height] = [strip.clientWidth * density, strip.clientHeight * density];
  [canvas.width, canvas.height] = [width, height];
  const context = canvas.getContext('2d');
  if (context === null) return;
  const style = getComputedStyle(colors);
  const phaseColors = [...'abcdefg'].map((letter) => style.getPropertyValue(`--phase-${letter}`).trim());
  const ink = style.getPropertyValue('--quiet').trim();
  context.setTransform(width / picture.width, 0, 0, height / picture.height, 0, 0);
  // A pixel wide, however the picture is pressed.
  const lineWidth = (0.8 * density * picture.width) / width;
  context.lineWidth = Math.min(lineWidth, 1.4);
  const draw = (items: readonly Primitive[]) => {
    for (const item of items) {
      if (item.kind === 'group') draw(item.items);
      if (item.kind !== 'path' || !drawnRoles.has(item.role)) continue;
      const color = item.phase === undefined ? ink : phaseColors[item.phase % phaseColors.length]!;
      context.globalAlpha = item.emphasis === 'faded' ? 0.2 : item.role === 'bar' ? 0.9 : 0.6;
      context.beginPath();
      for (const points of item.parts)
        for (let index = 0; index + 1 < points.length; index += 2) {
          if (index === 0) context.moveTo(points[0]!, points[1]!);
          else context.lineTo(points[index]!, points[index + 1]!);
        }
      if (item.filled) {
        context.fillStyle = color;
        context.fill();
      } else {
        context.strokeStyle = color;
        context.stroke();
      }
    }
  };
  draw(picture.items);
}
