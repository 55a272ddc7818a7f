import { figureRow } from '../figures/register.ts';
import { layerLetter } from '../winding/model.ts';

/** What a figure of the report is called; of a figure of one layer with the layer: `AC ratio, layer a`. */
export function figureName(path: string): string {
  const [, plain, place, point] = /^(.*?)(?:\[(\d+)\]|( at ".*"))?$/s.exec(path)!;
  const layer = place === undefined ? '' : `, layer ${layerLetter(Number(place) - 1)}`;
  return (
    (figureRow(plain!)?.words ?? unnamed(plain!)).replace(' of a point of the duty', point ?? '$&') + layer
  );
}

/** The place in the report of a figure, whatever its layer or the point of the duty that it is told at. */
export function figurePlace(path: string): string {
  return path.replace(/\[\d+\]$| at ".*"$/s, '');
}

/** The words of the place itself, for figures that the register does not name. */
function unnamed(path: string): string {
  return path.replaceAll('.', ' ').replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
}
