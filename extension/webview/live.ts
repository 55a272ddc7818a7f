import { layerOfLetter } from '../../core/language/layerLetters.ts';
import type { Solids } from '../../core/views/space/solids.ts';
import { barName } from '../../core/winding/model.ts';
import type { PanelControls } from '../protocol/shownParts.ts';
import type { Wanted } from './goTo.ts';
import { loadScript, type PageScript } from './loadScript.ts';
import type { Marked } from './marking.ts';
import type { Pointing } from './pointing.ts';
import { readEye } from './space/eye.ts';
import type { Eye, LiveSpace, Standing, StartLiveSpace } from './space/liveSpace.ts';
import { controlTools, type ToolParts } from './spaceTools.ts';
import { zoomStep } from './viewport/gestures.ts';

/** The parts of the page that the live view has. */
export interface LiveParts extends ToolParts {
  readonly area: HTMLElement;
  /** Says why there is a picture only. */
  readonly why: HTMLElement;
  readonly buttons: Readonly<Record<'fit' | 'zoomIn' | 'zoomOut', HTMLElement>>;
  readonly script: PageScript;
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
  /** Turns bars to the front. */
  readonly turnTo: (bars: readonly string[]) => void;
  /** The same, where they are behind. */
  readonly bringIntoSight: (bars: readonly string[]) => void;
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
  const { area, buttons, why } = parts;
  let ability: 'unknown' | 'there' | 'missing' = 'unknown';
  let loading = false;
  let live: LiveSpace | null = null;
  let solids: Solids | null = null;
  let standing: Standing = { phase: null, path: null, layer: null, side: null };
  let marks: Marked = { bars: [], joints: [], paths: [], chosen: null };
  let eye: Eye | null = null;

  const look = () => live?.look(tools.look(), standing);
  const tools = controlTools(parts, () => {
    look();
    wishes.changed();
  });
  const giveUp = (reason: string | undefined) => {
    ability = 'missing';
    live?.end();
    live = null;
    solids = null;
    why.textContent = reason ?? '';
    wishes.failed();
  };
  const start = (begin: StartLiveSpace) => {
    try {
      live = begin(area, eye, {
        ...wishes.pointing,
        moved: (next) => {
          eye = next;
          wishes.changed();
        },
        lost: () => giveUp(why.dataset.lost),
      });
      look();
      live.mark(marks);
    } catch {
      giveUp(why.dataset.missing);
    }
  };
  const load = () => {
    if (loading) return;
    loading = true;
    loadScript(parts.script, () => {
      loading = false;
      if (window.slotwrightSpace === undefined) giveUp(why.dataset.failed);
      else present();
    });
  };
  const present = () => {
    if (solids === null) return;
    const begin = window.slotwrightSpace;
    if (begin === undefined) return load();
    if (live === null) start(begin);
    live?.show(solids);
  };
  buttons.fit.addEventListener('click', () => !area.hidden && live?.fit());
  buttons.zoomIn.addEventListener('click', () => !area.hidden && live?.zoom(zoomStep));
  buttons.zoomOut.addEventListener('click', () => !area.hidden && live?.zoom(1 / zoomStep));
  const colors = new MutationObserver(() => live?.recolor());
  colors.observe(document.body, { attributeFilter: ['class'] });
  colors.observe(document.documentElement, { attributeFilter: ['style'] });

  return {
    possible: () => {
      if (ability === 'unknown') {
        ability = hasWebGl() ? 'there' : 'missing';
        why.textContent = ability === 'missing' ? (why.dataset.missing ?? '') : '';
      }
      return ability === 'there';
    },
    isShown: () => !area.hidden,
    show: (next) => {
      area.hidden = next === null;
      if (next === null || next === solids) return;
      solids = next;
      tools.haveLayers(next.layers);
      present();
    },
    control: (controls) => {
      tools.offer(controls);
      standing = standingOf(controls);
      why.hidden = controls.wish.view !== 'space' || controls.wish.live;
      look();
    },
    mark: (marked) => {
      marks = marked;
      live?.mark(marked);
    },
    turnTo: (bars) => live?.turnTo(bars),
    bringIntoSight: (bars) => live?.bringIntoSight(bars),
    find: (wanted) =>
      (solids === null ? [] : barsOf(solids)).filter((name) => {
        if (wanted.kind === 'bar') return name === wanted.bar;
        const slot = Number.parseInt(name, 10);
        return wanted.first <= slot && slot <= wanted.last;
      }),
    picture: () => live?.picture() ?? Promise.reject(new Error('Nothing is drawn')),
    state: () => ({ eye, look: tools.look() }),
    restore: (saved) => {
      const kept = (saved ?? {}) as { readonly eye?: unknown; readonly look?: unknown };
      eye = readEye(kept.eye);
      tools.restore(kept.look);
      // Another text is seen from where it was seen last.
      live?.face(eye);
      look();
      solids = null;
    },
    retry: () => {
      if (ability === 'missing') ability = 'unknown';
    },
  };
}

/** What is to stand out, as the panel's choices say it. */
function standingOf({ wish, phases }: PanelControls): Standing {
  const phase = wish.phase === null ? -1 : phases.indexOf(wish.phase);
  return {
    phase: phase < 0 ? null : phase,
    path: wish.path,
    layer: wish.layer === null ? null : layerOfLetter(wish.layer),
    side: wish.side,
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
