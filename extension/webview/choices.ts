import { layerLetter } from '../../core/language/layerLetters.ts';
import type { EndSide } from '../../core/winding/model.ts';
import type { PanelControls } from '../protocol/shownParts.ts';
import type { Wish } from '../protocol/wish.ts';
import { fillChoices, filled, part, partOf } from './parts.ts';

/**
 * Takes over the choices of what stands out in a drawing, and the button that opens and names them. Returns what
 * brings them in step with what is shown, once it is settled which of them are for its view.
 */
export function controlChoices(ask: (change: Partial<Wish>) => void): (controls: PanelControls) => void {
  const choices = part('choices');
  const opener = part('choices-open');
  const phase = partOf('phase', HTMLSelectElement);
  const path = partOf('path', HTMLSelectElement);
  const layer = partOf('layer', HTMLSelectElement);
  const side = partOf('side', HTMLSelectElement);
  const circle = partOf('circle', HTMLInputElement);

  const open = () => {
    choices.hidden = false;
    opener.setAttribute('aria-expanded', 'true');
    phase.focus();
  };
  const close = () => {
    choices.hidden = true;
    opener.setAttribute('aria-expanded', 'false');
  };
  phase.addEventListener('change', () => ask({ phase: phase.value || null }));
  path.addEventListener('change', () => ask({ path: Number(path.value) || null }));
  layer.addEventListener('change', () => ask({ layer: layer.value || null }));
  side.addEventListener('change', () => ask({ side: (side.value as EndSide) || null }));
  circle.addEventListener('change', () => ask({ wholeCircle: circle.checked }));
  opener.addEventListener('click', () => (choices.hidden ? open() : close()));
  part('tools').addEventListener('keydown', ({ key }) => {
    if (key !== 'Escape' || choices.hidden) return;
    close();
    opener.focus();
  });

  /** What is chosen, in words. */
  const words = () => {
    const isShown = ({ parentElement }: HTMLElement) => parentElement?.hidden === false;
    const offered = [phase, path, layer].filter((list) => !list.disabled && isShown(list));
    const chosen = offered.filter(({ value }) => value !== '');
    const all = offered.filter(({ value }) => value === '').map(({ dataset }) => dataset.noun);
    const told = chosen.map(({ labels, value }) => `${labels[0]?.textContent ?? ''} ${value}`);
    if (all.length > 0) told.push(filled(opener.dataset.all, all.join(', ')));
    if (isShown(side)) told.push(side.selectedOptions[0]?.text ?? '');
    if (isShown(circle)) told.push((circle.checked ? circle.dataset.all : circle.dataset.part) ?? '');
    // The first word alone has a capital.
    const lower = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
    return told.map((each, index) => (index === 0 ? each : lower(each))).join(', ');
  };
  return ({ wish, phases, paths, layers }) => {
    offer(phase, phases, wish.phase);
    offer(
      path,
      numbered(paths, (index) => String(index + 1)),
      wish.path,
    );
    offer(layer, numbered(layers, layerLetter), wish.layer);
    side.value = wish.side ?? '';
    circle.checked = wish.wholeCircle;
    part('choices-words').textContent = words();
  };
}

/** The names of several things; one alone is no choice. */
function numbered(count: number, nameOf: (index: number) => string): readonly string[] {
  return count > 1 ? Array.from({ length: count }, (_, index) => nameOf(index)) : [];
}

/** Offers names after the choice of all; where there are none, there is nothing to choose. */
function offer(list: HTMLSelectElement, names: readonly string[], chosen: string | number | null): void {
  const all = { value: '', text: list.dataset.all ?? '' };
  const known = names.includes(String(chosen)) ? String(chosen) : '';
  fillChoices(list, [all, ...names.map((name) => ({ value: name, text: name }))], known);
  list.disabled = names.length === 0;
}
