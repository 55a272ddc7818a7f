import type { Solids } from '../../core/views/space/solids.ts';
import { barName, layerLetter } from '../../core/winding/model.ts';
import type { PanelControls } from '../protocol/shownParts.ts';
import type { Wanted } from './goTo.ts';
import type { Marked } from './marking.ts';
import { fillChoices, filled } from './parts.ts';
import type { Pointing } from './pointing.ts';
import { readEye } from './space/eye.ts';
import {
  type Coloring,
  colorings,
  type Eye,
  type LiveSpace,
  readLook,
  type SpaceLook,
  type Standing,
} from './space/liveSpace.ts';
import { zoomStep } from './viewport/gestures.ts';

/** The parts of the page that the live view has. */
export interface LiveParts {
  readonly area: HTMLElement;
  readonly coloring: HTMLSelectElement;
  readonly opened: HTMLInputElement;
  readonly openedValue: HTMLOutputElement;
  /** Says why there is a picture only. */
  readonly why: HTMLElement;
  readonly buttons: Readonly<Record<'fit' | 'zoomIn' | 'zoomOut', HTMLElement>>;
  /** Address of the live view's script, and the word by which the page's policy lets it in. */
  readonly script: string;
  readonly nonce: string;
}

/** The live form of the bars in space; its script is loaded when it is first shown. */
export interface Live {
  /** Whether the browser can show it, as far as is known; asks the browser where it has not yet. */
  readonly possible: () => boolean;
  readonly isShown: () => boolean;
  /** Shows solids, or nothing. */
  readonly show: (solids: Solids | null) => void;
  readonly control: (controls: PanelControls) => void;
  readonly mark: (marked: Marked) => void;
  /** Turns the bars into sight where they are behind; with `always` to the front. */
  readonly turnTo: (bars: readonly string[], always: boolean) => void;
  /** The bars that are wanted, by name. */
  readonly find: (wanted: Wanted) => readonly string[];
  readonly picture: () => Promise<Blob>;
  /** What is kept over a reload; taken up by `restore`. */
  readonly state: () => unknown;
  readonly restore: (saved: unknown) => void;
  /** Tries again what went wrong. */
  readonly retry: () => void;
}

export interface LiveWishes {
  readonly pointing: Pointing;
  /** Something that is kept has changed. */
  readonly changed: () => void;
  /** It cannot be shown any more: there is to be a picture. */
  readonly failed: () => void;
}

/** Controls the live view and its tools. */
export function controlLive(parts: LiveParts, wishes: LiveWishes): Live {
  const { area, coloring, opened, openedValue, why } = parts;
  let ability: 'unknown' | 'there' | 'missing' = 'unknown';
  let loading = false;
  let live: LiveSpace | null = null;
  let solids: Solids | null = null;
  let look: SpaceLook = readLook(null);
  let standing: Standing = { phase: null, path: null, layer: null, side: null };
  let marks: Marked = { bars: [], joints: [], paths: [], chosen: null };
  let eye: Eye | null = null;

  const giveUp = (reason: string | undefined) => {
    ability = 'missing';
    live?.end();
    live = null;
    solids = null;
    why.textContent = reason ?? '';
    wishes.failed();
  };
  const possible = () => {
    if (ability === 'unknown') {
      ability = hasWebGl() ? 'there' : 'missing';
      why.textContent = ability === 'missing' ? (why.dataset.missing ?? '') : '';
    }
    return ability === 'there';
  };
  const start = () => {
    const begin = window.slotwrightSpace;
    if (begin === undefined) return load();
    try {
      live = begin(area, eye, {
        ...wishes.pointing,
        moved: (next) => {
          eye = next;
          wishes.changed();
        },
        lost: () => giveUp(why.dataset.lost),
      });
      live.look(look, standing);
      live.mark(marks);
    } catch {
      giveUp(why.dataset.missing);
    }
  };
  const load = () => {
    if (loading) return;
    loading = true;
    const script = document.createElement('script');
    // The page's policy lets scripts in by this word alone.
    script.nonce = parts.nonce;
    script.src = parts.script;
    script.addEventListener('load', () => {
      loading = false;
      if (window.slotwrightSpace === undefined) giveUp(why.dataset.failed);
      else present();
    });
    script.addEventListener('error', () => {
      loading = false;
      script.remove();
      giveUp(why.dataset.failed);
    });
    document.body.append(script);
  };
  const present = () => {
    if (solids === null) return;
    if (live === null) start();
    live?.show(solids);
  };
  const nameOpened = () => {
    opened.value = String(look.opened);
    const left = (solids?.layers ?? 1) - look.opened;
    openedValue.textContent =
      look.opened === 0 ? (opened.dataset.all ?? '') : filled(opened.dataset.words, layerLetter(left - 1));
    opened.setAttribute('aria-valuetext', openedValue.textContent);
  };
  const change = (next: SpaceLook) => {
    look = next;
    nameOpened();
    live?.look(look, standing);
    wishes.changed();
  };
  coloring.addEventListener('change', () => change({ ...look, coloring: coloring.value as Coloring }));
  opened.addEventListener('input', () => change({ ...look, opened: Number(opened.value) }));
  parts.buttons.fit.addEventListener('click', () => !area.hidden && live?.fit());
  parts.buttons.zoomIn.addEventListener('click', () => !area.hidden && live?.zoom(zoomStep));
  parts.buttons.zoomOut.addEventListener('click', () => !area.hidden && live?.zoom(1 / zoomStep));
  new MutationObserver(() => live?.recolor()).observe(document.body, { attributeFilter: ['class'] });
  new MutationObserver(() => live?.recolor()).observe(document.documentElement, {
    attributeFilter: ['style'],
  });

  return {
    possible,
    isShown: () => !area.hidden,
    show: (next) => {
      area.hidden = next === null;
      if (next === null || next === solids) return;
      solids = next;
      opened.max = String(next.layers - 1);
      // Of another winding, there may be fewer.
      if (look.opened > next.layers - 1) look = { ...look, opened: 0 };
      nameOpened();
      present();
    },
    control: ({ wish, phases, paths }) => {
      const names = {
        phase: coloring.dataset.phase,
        path: coloring.dataset.path,
        layer: coloring.dataset.layer,
      };
      const offered = colorings.filter((name) => name !== 'path' || paths > 1);
      if (!offered.includes(look.coloring)) look = { ...look, coloring: 'phase' };
      fillChoices(
        coloring,
        offered.map((name) => ({ value: name, text: names[name] ?? name })),
        look.coloring,
      );
      const phase = wish.phase === null ? -1 : phases.indexOf(wish.phase);
      standing = {
        phase: phase < 0 ? null : phase,
        path: wish.path,
        layer: wish.layer === null ? null : wish.layer.charCodeAt(0) - 97,
        side: wish.side,
      };
      why.hidden = wish.view !== 'space' || wish.live;
      live?.look(look, standing);
    },
    mark: (marked) => {
      marks = marked;
      live?.mark(marked);
    },
    turnTo: (bars, always) => live?.turnTo(bars, always),
    find: (wanted) =>
      (solids === null ? [] : barsOf(solids)).filter((name) => {
        if (wanted.kind === 'bar') return name === wanted.bar;
        const slot = Number.parseInt(name, 10);
        return wanted.first <= slot && slot <= wanted.last;
      }),
    picture: () => live?.picture() ?? Promise.reject(new Error('Nothing is drawn')),
    state: () => ({ eye, look }),
    restore: (saved) => {
      const { eye: kept, look: keptLook } = (saved ?? {}) as {
        readonly eye?: unknown;
        readonly look?: unknown;
      };
      eye = readEye(kept);
      look = readLook(keptLook);
      coloring.value = look.coloring;
      nameOpened();
      // Another text is seen from where it was seen last.
      live?.face(eye);
      live?.look(look, standing);
      solids = null;
    },
    retry: () => {
      if (ability === 'missing') ability = 'unknown';
    },
  };
}

/** Whether the browser draws in three dimensions. */
function hasWebGl(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}

function barsOf({ slots, layers, phases }: Solids): readonly string[] {
  return Array.from({ length: slots * layers }, (_, place) => place)
    .filter((place) => phases[place]! >= 0)
    .map((place) => barName({ slot: (place % slots) + 1, layer: Math.floor(place / slots) }));
}
