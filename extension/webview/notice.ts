import type { PanelNotice } from '../protocol/shownParts.ts';
import { linkButton, part } from './parts.ts';

/** Says above the page why what is drawn is not the present text's, with places of the text to go to. */
export function showNotice(notice: PanelNotice | null, reveal: (place: string) => void): void {
  // A stamp without words covers nothing: what is drawn is only on trial.
  const told = notice !== null && notice.headline !== '';
  part('notice').hidden = !told;
  document.body.classList.toggle('out-of-date', told);
  part('headline').textContent = notice?.headline ?? '';
  const places = notice?.places ?? [];
  // What comes again unchanged leaves its buttons alone: one may be under a pressed pointer.
  const list = part('places');
  const key = JSON.stringify(places);
  if (list.dataset.key === key) return;
  list.dataset.key = key;
  list.replaceChildren(
    ...places.map(({ text, place }) => {
      const item = document.createElement('li');
      item.append(linkButton(text, () => reveal(place)));
      return item;
    }),
  );
}
