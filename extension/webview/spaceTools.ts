import { layerLetter } from '../../core/language/layerLetters.ts';
import type { PanelControls } from '../protocol/shownParts.ts';
import { fillChoices, filled } from './parts.ts';
import { type Coloring, colorings, readLook, type SpaceLook } from './space/liveSpace.ts';

/** The parts of the page by which the reader chooses the look of the bars. */
export interface ToolParts {
  readonly coloring: HTMLSelectElement;
  readonly opened: HTMLInputElement;
  readonly openedValue: HTMLOutputElement;
}

/** The look that the reader has chosen. */
export interface SpaceTools {
  readonly look: () => SpaceLook;
  /** Takes up a look that was saved. */
  readonly restore: (saved: unknown) => void;
  /** The winding shown has so many layers. */
  readonly haveLayers: (layers: number) => void;
  readonly offer: (controls: Pick<PanelControls, 'paths'>) => void;
}

export function controlTools({ coloring, opened, openedValue }: ToolParts, changed: () => void): SpaceTools {
  let look: SpaceLook = readLook(null);
  let layers = 1;
  const nameOpened = () => {
    opened.value = String(look.opened);
    openedValue.textContent =
      look.opened === 0
        ? (opened.dataset.all ?? '')
        : filled(opened.dataset.words, layerLetter(layers - look.opened - 1));
    opened.setAttribute('aria-valuetext', openedValue.textContent);
  };
  const change = (next: Partial<SpaceLook>) => {
    look = { ...look, ...next };
    nameOpened();
    changed();
  };
  coloring.addEventListener('change', () => change({ coloring: coloring.value as Coloring }));
  opened.addEventListener('input', () => change({ opened: Number(opened.value) }));
  return {
    look: () => look,
    restore: (saved) => {
      look = readLook(saved);
      coloring.value = look.coloring;
      nameOpened();
    },
    haveLayers: (next) => {
      layers = next;
      opened.max = String(layers - 1);
      // Of another winding, there may be fewer.
      if (look.opened > layers - 1) look = { ...look, opened: 0 };
      nameOpened();
    },
    offer: ({ paths }) => {
      const words = coloring.dataset;
      const names = { phase: words.phase, path: words.path, layer: words.layer };
      const offered = colorings.filter((name) => name !== 'path' || paths > 1);
      if (!offered.includes(look.coloring)) look = { ...look, coloring: 'phase' };
      const choices = offered.map((name) => ({ value: name, text: names[name] ?? name }));
      fillChoices(coloring, choices, look.coloring);
    },
  };
}
